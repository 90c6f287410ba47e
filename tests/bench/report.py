"""Print how long `diagnose report` takes from the prompt, and where the time goes within it.

Run: python tests/bench/report.py [TIMES]
"""

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
CASES = ("dim_and_waterlogged", "feathered_pattern", "mites_in_desert_air")


def seconds(work: Callable[[], Any]) -> tuple[float, Any]:
    """Return how long the work took, once, and what it gave."""
    start = time.perf_counter()
    found = work()
    return time.perf_counter() - start, found


def print_command(times: int) -> None:
    """Print the median and the least time of the whole command, a new process each time."""
    program = Path(sys.executable).with_name("diagnose")
    with tempfile.TemporaryDirectory() as folder:
        for case in CASES:
            command = (program, "report", f"cases_demo/{case}.toml", "-o", f"{folder}/{case}.html", "--force")
            took = [_run(command) for _ in range(times)]
            print(f"report {case:<22} median {statistics.median(took):5.2f} s, least {min(took):5.2f} s")


def _run(command: Sequence[str | Path]) -> float:
    return seconds(lambda: subprocess.run(command, check=True, cwd=ROOT, capture_output=True))[0]


def print_parts() -> None:
    """Print what each part costs in one process, the first time."""
    imports, _ = seconds(lambda: __import__("diagnose.diagnosis"))
    from diagnose.casefile import read_case
    from diagnose.diagnosis import open_rules, plan_for

    rules, opened = seconds(lambda: open_rules([]))
    case = read_case(ROOT / "cases_demo" / f"{CASES[0]}.toml")[0]
    pvlib, _ = seconds(lambda: __import__("pvlib"))
    ranked, diagnosis = seconds(lambda: opened.diagnose(case))
    planned, plan = seconds(lambda: plan_for(diagnosis))
    from diagnose.report.page import page
    from diagnose.report.render import html

    paged, made = seconds(lambda: page(diagnosis, plan))
    jinja, _ = seconds(lambda: __import__("jinja2.ext"))
    written, _ = seconds(lambda: html(made))
    for name, took in (
        ("imports", imports), ("rules", rules), ("import pvlib", pvlib), ("ranking", ranked), ("plan", planned),
        ("page", paged), ("import jinja2", jinja), ("html", written),
    ):  # fmt: skip
        print(f"{name:<14} {took * 1000:7.1f} ms")


if __name__ == "__main__":
    print_command(int(sys.argv[1]) if sys.argv[1:] else 5)
    print_parts()
