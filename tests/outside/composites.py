"""Fuller cases of known cause, put together from rows of several published tables; the same ones on every run.

Real plants show several signs at once and some that mean nothing. Each case merges a few rows whose first cause is
the same, from any sheets, and every second one also a row of another cause as a bystander, whose cause counts as not
true. Where rows answer a question differently, the first drawn is kept.
"""

import random
from collections import defaultdict
from collections.abc import Iterator, Sequence

from diagnose.case import AnswerValue, Case, Plant
from symptom_rows import Row

EACH = 20
"""Cases of one cause."""
ROWS = (2, 3, 4)
"""How many rows of the cause go into a case."""


def composites(rows: Sequence[Row], seed: int = 1) -> Iterator[tuple[str, Case]]:
    """Yield (true cause, case); causes named first by fewer than two rows are left out."""
    pick = random.Random(seed)
    by_cause: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        by_cause[row.causes[0]].append(row)
    for cause, own in sorted(by_cause.items()):
        others = [row for row in rows if cause not in row.causes]
        for number in range(EACH if len(own) > 1 else 0):
            drawn = pick.sample(own, min(len(own), pick.choice(ROWS)))
            bystanders = [pick.choice(others)] if number % 2 else []
            yield cause, _merged(drawn, bystanders)


def _merged(drawn: Sequence[Row], bystanders: Sequence[Row]) -> Case:
    profiles = [row.case.plant.profile for row in drawn if row.case.plant.profile]
    answers: dict[str, AnswerValue] = {}
    for row in [*drawn, *bystanders]:
        for name, answer in row.case.answers.items():
            answers.setdefault(name, answer)
    return Case(
        date=drawn[0].case.date, plant=Plant(profile=profiles[0] if profiles else None), answers=answers
    )
