"""Times of the collection's screen, printed: `python tests/bench/collection_screen.py [plants, default 1000]`.

Five years of weekly counts of each plant. From the key on the first screen, its rules read, to the plants painted
(`best` and `median` of some rounds, each reading the file anew), and from a letter of the search to its hits painted.
"""

import asyncio
import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE)]
ROUNDS = 9
LETTERS = "plant12"


async def measure(size):
    """Print the times."""
    from journal import LAST, say

    from diagnose.screens.app import DiagnoseApp
    from diagnose.screens.plant_table import PlantTable

    painted = []
    draw = PlantTable.render_line

    def watched(table, y):
        strip = draw(table, y)
        if y == 1 and len(table.rows) == size:
            painted.append(time.perf_counter())
        return strip

    PlantTable.render_line = watched
    opened, typed, moved, used = [], [], [], []
    app = DiagnoseApp([], None, today=lambda: LAST)
    async with app.run_test(size=(120, 36)) as pilot:
        while app.loader.loaded is None:
            await asyncio.sleep(0.05)
        await pilot.pause(1)
        for _ in range(ROUNDS):
            painted.clear()
            start, processor = time.perf_counter(), time.process_time()
            app.simulate_key("c")
            while not painted:
                await asyncio.sleep(0.001)
            opened.append(1000 * (painted[0] - start))
            used.append(1000 * (time.process_time() - processor))
            await pilot.press("escape")
            await pilot.pause()
        app.simulate_key("c")
        await pilot.pause(1)
        await press(pilot, ["down"] * 20, moved)
        await pilot.press("s")
        await press(pilot, LETTERS, typed)
    say(f"{size:,} plants, key to plants painted, first time: {opened[0]:.0f} ms")
    told = (
        ("key to plants painted", opened),
        ("of which processor", used),
        ("letter, with some 80 ms that the test driver waits", typed),
        ("arrow, with the same", moved),
    )
    for what, times in told:
        say(
            f"{what}: best {min(times):.0f} ms, median {statistics.median(times):.0f} ms, longest {max(times):.0f} ms"
        )


async def press(pilot, keys, times):
    """Press keys one by one, and add the time until each is painted."""
    for key in keys:
        start = time.perf_counter()
        await pilot.press(key)
        await pilot.pause()
        times.append(1000 * (time.perf_counter() - start))


if __name__ == "__main__":
    plants = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as home:
        os.environ.update(dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"), home))
        from journal import fill

        from diagnose import locations

        locations.journal().parent.mkdir(parents=True, exist_ok=True)
        fill(locations.journal(), plants)
        asyncio.run(measure(plants))
