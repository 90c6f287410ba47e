"""How many questions until the final first cause stays first: `python tests/bench/questions_needed.py`.

Every demo case (and every case file under tests/outside) is told anew, one question at a time, to an empty case:
most telling first, in subject order, and in random orders. A question that the case does not answer counts as
asked and not known.
"""

import random
import statistics
from collections.abc import Callable, Sequence
from pathlib import Path

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnosis, Diagnostician, open_rules
from diagnose.problems import BadInputError
from diagnose.rulebase.model import RECORD_KINDS, Question

RANDOM_ORDERS = 3
OUTSIDE = Path(__file__).resolve().parents[1] / "outside"


def told(case: Case, whole: Case, question: Question) -> Case:
    """Return the case with one more question answered as in the whole case, or not known."""
    parts = {"leaf_history": ("leaf_history", "leaves"), "place": ("place",), "plant_profile": ("plant",)}
    if question.kind in RECORD_KINDS:
        known = {name: getattr(whole, name) for name in parts[question.kind]}
        if any(value not in ((), type(value)()) for value in known.values()):
            return case.model_copy(update=known)
    elif question.id in whole.answers:
        return case.model_copy(update={"answers": case.answers | {question.id: whole.answers[question.id]}})
    return case.model_copy(update={"not_known": (*case.not_known, question.id)})


def needed(
    diagnostician: Diagnostician,
    whole: Case,
    choose: Callable[[Diagnosis, Sequence[Question]], Question | None],
) -> int:
    """Return after how many questions the final first cause is first and stays so."""
    final = diagnostician.diagnose(whole).ranking.first.id
    case = Case(date=whole.date, events=whole.events)
    asked = stays = 0
    while True:
        diagnosis = diagnostician.diagnose(case)
        if diagnosis.ranking.first.id != final:
            stays = asked + 1
        waiting = [q for q in diagnosis.unanswered if q.id not in case.not_known]
        question = choose(diagnosis, waiting) if waiting else None
        if question is None:
            return stays
        case = told(case, whole, question)
        asked += 1


def main() -> None:
    """Print one line a case, and the medians."""
    diagnostician = open_rules()
    paths = [*sorted(locations.demo_cases().glob("*.toml")), *sorted(OUTSIDE.rglob("*.toml"))]
    rows = []
    print("questions until the first cause stays first\ntelling  subject  random  case")
    for path in paths:
        try:
            whole, _ = read_case(path)
        except BadInputError:  # not every file there is a case
            continue
        shuffles = []
        for seed in range(RANDOM_ORDERS):
            rng = random.Random(seed)
            place = {name: rng.random() for name in diagnostician.base.questions}
            shuffles.append(
                needed(diagnostician, whole, lambda _, qs, place=place: min(qs, key=lambda q: place[q.id]))
            )  # type: ignore[misc]
        row = (
            needed(
                diagnostician,
                whole,
                lambda d, qs: next((q for q in diagnostician.telling_order(d) if q in qs), None),
            ),
            needed(diagnostician, whole, lambda _, qs: qs[0]),
            statistics.median(shuffles),
        )
        rows.append(row)
        print(f"{row[0]:7}  {row[1]:7}  {row[2]:6.0f}  {path.stem}", flush=True)
    medians = [statistics.median(column) for column in zip(*rows, strict=True)]
    print(f"{medians[0]:7.0f}  {medians[1]:7.0f}  {medians[2]:6.0f}  median of {len(rows)} cases")


if __name__ == "__main__":
    main()
