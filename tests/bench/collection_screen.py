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

    opened, typed, moved, used = [], [], [], []
    app = DiagnoseApp([], None, today=lambda: LAST)
    async with app.run_test(size=(120, 36)) as pilot:
        while app.loader.loaded is None:  # noqa: ASYNC110
            await asyncio.sleep(0.05)
        await pilot.pause()
        for _ in range(ROUNDS):
            start, processor = time.perf_counter(), time.process_time()
            await pilot.press("c")
            while not listed(app, size):  # noqa: ASYNC110
                await asyncio.sleep(0.001)
            await pilot.pause()
            opened.append(1000 * (time.perf_counter() - start))
            used.append(1000 * (time.process_time() - processor))
            await pilot.press("escape")
            await pilot.pause()
        await pilot.press("c")
        while not listed(app, size):  # noqa: ASYNC110
            await asyncio.sleep(0.001)
        await press(pilot, ["down"] * 20, moved)
        await pilot.press("s")
        await press(pilot, LETTERS, typed)
    say(f"{size:,} plants, first time: {opened[0]:.0f} ms")
    told = (
        ("key to plants painted", opened),
        ("of which processor", used),
        ("letter", typed),
        ("arrow", moved),
    )
    for what, times in told:
        say(
            f"{what}: best {min(times):.0f} ms, median {statistics.median(times):.0f} ms, longest {max(times):.0f} ms"
        )


def listed(app, size):
    """Whether all plants are listed."""
    from diagnose.screens.plant_table import PlantTable

    return any(len(table.rows) == size for table in app.screen.query(PlantTable))


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
