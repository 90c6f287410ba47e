"""Looking again: whose plan asks for it, and what came of it against what should have been seen."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.case import Case
from diagnose.journal.records import CaseRecord, PlanRecord, PlantRecord, RankingRecord, StepRecord
from diagnose.measures.leaves.consistency import cleaned_history
from diagnose.measures.leaves.exact import RateRatio, rate_ratio
from diagnose.measures.leaves.history import Stretch
from diagnose.ranking import Ranking


@dataclass(frozen=True, slots=True)
class Due:
    """A plan whose day to look again has come; `steps` are those to be judged on it."""

    plant: PlantRecord
    case: CaseRecord
    plan: PlanRecord
    look_on: dt.date
    steps: tuple[StepRecord, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """The case then and now: leaves lost since the plan against before it, and the first cause."""

    lost_since: int
    days_since: int
    lost_before: int
    days_before: int
    ratio: RateRatio | None
    """Losses per standing leaf and day, since ÷ before; None if nothing can be compared."""
    first_then: str
    first_now: str
    probability_then: float
    """Of the cause that was first then."""
    probability_now: float
    """Of that same cause."""

    @property
    def still_first(self) -> bool:
        """Whether the cause that was first then still is."""
        return self.first_then == self.first_now


def due(
    plants: Iterable[PlantRecord], cases: Iterable[CaseRecord], plans: Iterable[PlanRecord], today: dt.date
) -> tuple[Due, ...]:
    """Return the open cases whose latest plan has a day to look again that has come and was not answered yet."""
    by_id = {plant.id: plant for plant in plants}
    latest = {plan.case_id: plan for plan in plans}
    found = []
    for case in cases:
        plan = latest.get(case.id)
        if case.settled or plan is None or case.plant_id not in by_id:
            continue
        waiting = [(look, step) for step in plan.steps if (look := _waiting_since(step, plan, today))]
        if waiting:
            first = min(look for look, _step in waiting)
            steps = tuple(step for _look, step in waiting)
            found.append(Due(by_id[case.plant_id], case, plan, first, steps))
    return tuple(sorted(found, key=lambda one: (one.look_on, one.plant.name)))


def _waiting_since(step: StepRecord, plan: PlanRecord, today: dt.date) -> dt.date | None:
    """Return the day to look again of a step if it has come and nobody has said since what was seen."""
    look = step.look_on
    if look is None or look > today:
        return None
    seen = (one.date for one in plan.follow_ups if one.step_id in (None, step.id))
    return None if any(date >= look for date in seen) else look


def compare(then: RankingRecord, now: Ranking, case: Case, since: dt.date) -> Comparison:
    """Return what changed since a plan's day; the counts before and after it meet nowhere else."""
    stretches = [s for s in cleaned_history(case).stretches if s.lost is not None]
    after = [s for s in stretches if s.start >= since]
    before = [s for s in stretches if s.end <= since]
    lost_after, time_after = _tally(after)
    lost_before, time_before = _tally(before)
    first = then.causes[0]
    return Comparison(
        lost_after,
        sum(s.days for s in after),
        lost_before,
        sum(s.days for s in before),
        rate_ratio(lost_after, time_after, lost_before, time_before) if time_after and time_before else None,
        first.id,
        now.first.id,
        first.probability,
        next((cause.probability for cause in now.causes if cause.id == first.id), 0.0),
    )


def _tally(stretches: list[Stretch]) -> tuple[int, float]:
    return sum(s.lost or 0 for s in stretches), sum(s.leaf_days for s in stretches)
