"""Times of the screens, printed: `python tests/bench/screens.py`.

Start: whole processes in a pseudo-terminal, from spawning to the first output that holds a text of the first
screen, against an empty Textual application; the processor time each used up to then stands beside it, since a
busy machine stretches the first but hardly the second. Keys: from the press to the next question on the screen,
and to the ranking that follows, with the shipped rules.
"""

import asyncio
import os
import pty
import select
import signal
import statistics
import sys
import tempfile
import time
from pathlib import Path

ROUNDS = 11
EMPTY = (
    "from textual.app import App\nfrom textual.widgets import Static\n"
    "class Empty(App):\n    def compose(self):\n        yield Static('ready here')\nEmpty().run()"
)
OURS = "from diagnose.command import main\nmain([])"


def first_paint(code, wanted):
    """Return (seconds, processor seconds) from spawning a process to its first output with `wanted`."""
    start = time.perf_counter()
    pid, terminal = pty.fork()
    if pid == 0:
        os.execvp(sys.executable, [sys.executable, "-c", code])  # noqa: S606
    seen = b""
    try:
        while wanted not in seen:
            if not select.select([terminal], [], [], 60)[0]:
                raise TimeoutError(f"nothing like {wanted!r} came")
            seen += os.read(terminal, 65536)
        took = time.perf_counter() - start
        used = sum(map(int, Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[11:13]))
        return took, used / os.sysconf("SC_CLK_TCK")
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(terminal)


def starts():
    """Print the times of starting."""
    os.environ.update(TERM="xterm-256color", COLUMNS="80", LINES="24")
    times = {"empty": [], "ours": []}
    for _ in range(ROUNDS):  # turn about, so that a busy moment strikes both
        times["empty"].append(first_paint(EMPTY, b"ready here"))
        times["ours"].append(first_paint(OURS, b"Start a new case"))
    best = {}
    for name, measured in times.items():
        wall, used = ([1000 * one[column] for one in measured] for column in (0, 1))
        best[name] = (min(wall), min(used))
        print(
            f"first paint, {name:<6} best {min(wall):4.0f} ms, median {statistics.median(wall):4.0f} ms; "
            f"processor best {min(used):4.0f} ms, median {statistics.median(used):4.0f} ms"
        )
    print(
        f"ours / empty: {best['ours'][0] / best['empty'][0]:.2f} (processor {best['ours'][1] / best['empty'][1]:.2f})"
    )


async def keys():
    """Print the times from a key to what it changes on the screen."""
    from diagnose import locations
    from diagnose.screens.app import DiagnoseApp
    from diagnose.screens.questions import QuestionsScreen

    shown, ranked, used = [], [], []
    case = Path(tempfile.mkdtemp()) / "case.toml"
    case.write_bytes((locations.demo_cases() / "dim_corner_in_december.toml").read_bytes())
    app = DiagnoseApp([], case)
    async with app.run_test(size=(120, 36)) as pilot:
        while not isinstance(app.screen, QuestionsScreen):
            await asyncio.sleep(0.05)
        await pilot.pause()
        asked = app.screen.questionnaire
        while asked.current is not None and len(shown) < 40:
            before = asked.current
            start, processor = time.perf_counter(), time.process_time()
            await pilot.press("0" if before.kind in ("choice", "yes_no", "several") else "f4")
            await pilot.pause()
            shown.append(1000 * (time.perf_counter() - start))
            while asked.is_behind:
                await asyncio.sleep(0.001)
            ranked.append(1000 * (time.perf_counter() - start))
            used.append(1000 * (time.process_time() - processor))
    told = (("to the next question", shown), ("to the new ranking", ranked), ("in all, processor time", used))
    for what, times in told:
        p50, p95 = statistics.median(times), statistics.quantiles(times, n=20)[-1]
        print(f"key {what}: p50 {p50:.0f} ms, p95 {p95:.0f} ms ({len(times)} answers)")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ.update(dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"), home))
        starts()
        asyncio.run(keys())
