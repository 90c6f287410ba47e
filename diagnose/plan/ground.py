"""What the computed parts of a plan stand on: the case's measures, the steps with their dates, the light."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.facts import Gathered
from diagnose.measures.measure import Given
from diagnose.plan.light import Light
from diagnose.plan.records import Step


@dataclass(frozen=True, slots=True)
class Ground:
    """Everything a schedule may use."""

    given: Given
    steps: Mapping[str, Step]
    light: Light | None

    @property
    def today(self) -> dt.date:
        """The case's date."""
        return self.given.case.date

    def number(self, name: str) -> float | None:
        """Return a known number by its fact's name."""
        return self.given.number(name)

    def first(self, *ids: str) -> Step | None:
        """Return the first of these steps that is in the plan."""
        return next((self.steps[one] for one in ids if one in self.steps), None)


def given_of(gathered: Gathered) -> Given:
    """Return what measures were given for a case, their own results included."""
    facts = gathered.facts
    return Given(
        gathered.case,
        {name: fact.value for name, fact in facts.items() if fact.measure is None},
        gathered.needs,
        {name: fact.measure for name, fact in facts.items() if fact.measure is not None},
    )


def days(count: float) -> dt.timedelta:
    """Return whole days."""
    return dt.timedelta(days=round(count))
