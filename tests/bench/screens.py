"""Times of the screens, printed: `python tests/bench/screens.py`.

Start: whole processes in a pseudo-terminal, from spawning to the first output that holds a text of the first
screen, against an empty Textual application; the processor time each used up to then stands beside it, since a
busy machine stretches the first but hardly the second.

Keys: the shipped rules and a demo case, its open questions answered one by one, choices by the first or second row or
"don't know", all else by "don't know". Timed from the key's arrival to the first output to the terminal by which the
next question and its field stand there, and apart from it to the first output after the answers were weighed anew,
which is the new ranking.
"""

import asyncio
import itertools
import os
import pty
import re
import select
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROUNDS = 11
ANSWERS = 60
SIZES = ((80, 24), (120, 36), (160, 45))
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


class Paint:
    """When the terminal was sent what, after a key: (milliseconds by the wall's clock, by the processor's)."""

    def __init__(self, screen):
        self.screen, self.before = screen, None

    def start(self):
        """Note the time of a key."""
        self.before = self.screen.questionnaire.current
        self.shown = self.ranked = None
        self.seen = ""
        self.pressed = time.perf_counter(), time.process_time()

    def wrote(self, output):
        """Look at an output."""
        asked = self.screen.questionnaire
        if self.before is None or asked.current is self.before:
            return
        self.seen += plain(output)
        if self.shown is None and all(one in self.seen for one in wanted(asked.current)):
            self.shown = self.since()
        if self.ranked is None and not asked.is_behind:
            self.ranked = self.since()

    def since(self):
        """Return the time since the key."""
        now = time.perf_counter(), time.process_time()
        return tuple(1000 * (late - early) for late, early in zip(now, self.pressed, strict=True))


def wanted(question):
    """Return what has to stand on the screen: the question's beginning, and its field's first row or hint."""
    if question is None:
        return [plain("All questions are done")]
    rows = {"choice": question.choices and question.choices[0].label[:20], "yes_no": "don't know"}
    rows |= {"number": "A number from", "date": "A date, such as", "several": "[ ]"}
    return [plain(question.text[:20]), plain(rows[question.kind])]


def plain(output):
    """Return an output's visible characters."""
    return "".join(re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", output).split())


async def keys(size):
    """Print the times from a key that answers to what it changes on the screen, the terminal's output included."""
    from textual import events
    from textual.drivers.headless_driver import HeadlessDriver

    from diagnose import locations
    from diagnose.screens.app import DiagnoseApp
    from diagnose.screens.questions import QuestionsScreen

    class Terminal(HeadlessDriver):
        """Takes what a terminal would be sent."""

        is_headless = False  # so the output is written out
        paint = None

        def write(self, data):
            if self.paint:
                self.paint.wrote(data)

    shown, ranked = [], []
    case = Path(tempfile.mkdtemp()) / "case.toml"
    case.write_bytes((locations.demo_cases() / "dim_corner_in_december.toml").read_bytes())
    app = DiagnoseApp([], case)
    app.driver_class = Terminal
    running = asyncio.create_task(app.run_async(size=size))
    while not (app.screen_stack and isinstance(app.screen, QuestionsScreen)):
        await asyncio.sleep(0.05)
    await asyncio.sleep(1)
    paint = Terminal.paint = Paint(app.screen)
    asked = app.screen.questionnaire
    answers = itertools.cycle("120")
    while asked.current is not None and len(shown) < ANSWERS:
        key = next(answers) if asked.current.kind in ("choice", "yes_no") else "f4"
        paint.start()
        app._driver.process_message(events.Key(key, key if len(key) == 1 else None))
        while paint.shown is None or paint.ranked is None:
            await asyncio.sleep(0.001)
        shown.append(paint.shown)
        ranked.append(paint.ranked)
        await asyncio.sleep(0.2)
    app.exit()
    await running
    print(f"{size[0]} x {size[1]}, {len(shown)} answers, from the key to the repaint:")
    for what, times in (("next question", shown), ("new ranking", ranked)):
        for clock, taken in zip(("wall", "processor"), zip(*times, strict=True), strict=True):
            p50, p95 = statistics.median(taken), statistics.quantiles(taken, n=20)[-1]
            print(f"  {what:<13} {clock:<9} p50 {p50:3.0f} ms, p95 {p95:3.0f} ms, most {max(taken):3.0f} ms")


if __name__ == "__main__":
    if "keys" in sys.argv:
        asyncio.run(keys(tuple(map(int, sys.argv[2:]))))
    else:
        with tempfile.TemporaryDirectory() as home:
            os.environ.update(dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"), home))
            starts()
            for size in SIZES:  # each in a process of its own, as a grower has it
                subprocess.run([sys.executable, __file__, "keys", *map(str, size)], check=True)
