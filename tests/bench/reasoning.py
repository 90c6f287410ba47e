"""How long reasons take on the built-in rules: `python tests/bench/reasoning.py`. Processor time: the machine may be busy.

*first*: the first time ever, engines and measures not ready. *warm*: of several fresh diagnoses of the same case, each
asked once, the fastest; nothing of an earlier answer is kept but measures by what they read.
"""

import statistics
import time
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnosis, Diagnostician, open_rules

RUNS = 3
GOALS_MS = {"next checks": 100, "what if": 16, "how firm": 100, "what would change": 500}


def main() -> None:
    """Print one line a case and the medians."""
    opened = time.process_time()
    expert = open_rules()
    base = expert.base
    print(
        f"{len(base.questions)} questions, {len(base.rules)} rules, {len(base.evidence)} evidence rules, "
        f"opened in {1000 * (time.process_time() - opened):.0f} ms"
    )
    print(
        "milliseconds of processor time, warm (first); goals: "
        + ", ".join(f"{k} {v}" for k, v in GOALS_MS.items())
    )
    print("next checks     what if         how firm        what would change      case")
    rows = []
    for path in sorted(locations.demo_cases().glob("*.toml")):
        case, _ = read_case(path)
        diagnosis = expert.diagnose(case)
        changes = dict([_some_change(diagnosis)])
        asks: list[Callable[[Diagnosis], Any]] = [
            expert.next_checks,
            lambda d, changes=changes: expert.what_if(d, changes),  # type: ignore[misc]
            expert.how_firm,
            expert.what_would_change,
        ]
        times = [_times(ask, diagnosis) for ask in asks]
        rows.append([warm for _, warm in times])
        size = _size(expert, diagnosis)
        cells = "".join(f"{f'{warm:.1f} ({first:.0f})':16}" for first, warm in times)
        print(f"{cells}sets of {size:5}  {path.stem}", flush=True)
    medians = [statistics.median(column) for column in zip(*rows, strict=True)]
    print("".join(f"{f'{median:.1f}':16}" for median in medians) + f"median of {len(rows)} cases")


def _times(ask: Callable[[Diagnosis], Any], diagnosis: Diagnosis) -> tuple[float, float]:
    """Return milliseconds of the first run, and of the fastest on fresh copies of the diagnosis."""
    spans = []
    for _ in range(1 + RUNS):
        fresh = replace(diagnosis)
        start = time.process_time()
        ask(fresh)
        spans.append(1000 * (time.process_time() - start))
    return spans[0], min(spans[1:])


def _some_change(diagnosis: Diagnosis) -> tuple[str, Any]:
    """Return another answer to the first choice that was answered."""
    for name in diagnosis.case.answers:
        question = diagnosis.base.questions[name]
        if question.kind == "choice":
            return name, next(c.id for c in question.choices if c.id != diagnosis.case.answers[name])
    raise ValueError("no choice was answered")


def _size(expert: Diagnostician, diagnosis: Diagnosis) -> str:
    change = expert.what_would_change(diagnosis)
    return f"{change.size}{' +' if change.cut_off else ''}"


if __name__ == "__main__":
    main()
