"""Print how much processor time the leaf measures take, warm. Run: python tests/bench/leaves.py."""

import subprocess
import sys
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "simulator")]

import random  # noqa: E402
from dataclasses import replace  # noqa: E402

from diagnose.case import Case  # noqa: E402
from diagnose.measures.leaves import measure  # noqa: E402
from diagnose.measures.measure import Given  # noqa: E402
from simulator import STEADY_AGEING, STEADY_CHANCE, Grown, Life, counted, followed, grow  # noqa: E402


def main() -> None:
    """Print a line for each size of history and one for the import."""
    for life in (STEADY_AGEING, STEADY_CHANCE):
        for weeks in (2, 12, 26, 59, 299):
            say(f"{weeks + 1:3} counts", [counted(grown(life, 7 * weeks, seed)) for seed in range(15)])
    say("a year of dated leaves", [followed(grown(STEADY_AGEING, 364, seed)) for seed in range(15)])
    code = "import sys, diagnose.measures.leaves; print({'numpy', 'scipy'} & sys.modules.keys())"
    loaded = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    print(f"numpy or scipy loaded by the import: {loaded.stdout.strip()}")


def say(name: str, cases: list[Case]) -> None:
    times = [elapsed_ms(case) for case in cases]
    print(f"{name:24} median {median(times):6.1f} ms, worst {max(times):6.1f} ms")


def elapsed_ms(case: Case) -> float:
    list(measure(Given(case, {})))
    start = time.process_time()
    list(measure(Given(case, {})))
    return 1000 * (time.process_time() - start)


def grown(life: Life, days: int, seed: int) -> Grown:
    return grow(replace(life, days=days), random.Random(seed))


if __name__ == "__main__":
    main()
