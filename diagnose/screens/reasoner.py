"""Reasons about one diagnosis, each worked out when first asked for and then kept. Owns no widgets."""

import threading
from collections.abc import Callable
from typing import TypeVar, cast

from diagnose.diagnosis import Diagnosis, Diagnostician, plan_for
from diagnose.plan import Plan
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import Firmness
from diagnose.reasoning.next_checks import NextChecks
from diagnose.reasoning.several import Several
from diagnose.reasoning.versus import Versus, versus
from diagnose.reasoning.why_not import WhyNot

Result = TypeVar("Result")
_ONE_AT_A_TIME = threading.RLock()
"""Suppositions about a case share what they remember, so threads take turns."""


class Reasoner:
    """Asks the diagnostician; every method may take a while, so call it from a worker."""

    def __init__(self, diagnostician: Diagnostician, diagnosis: Diagnosis) -> None:
        self.diagnosis = diagnosis
        self._diagnostician = diagnostician
        self._kept: dict[str, object] = {}

    def next_checks(self) -> NextChecks:
        """Return the open questions, most telling for their effort first."""
        return self._once("checks", lambda: self._diagnostician.next_checks(self.diagnosis))

    def telling_order(self) -> tuple[str, ...]:
        """Return the ids of the open questions, the most telling first."""
        return self._once(
            "order", lambda: tuple(one.id for one in self._diagnostician.telling_order(self.diagnosis))
        )

    def why_not(self, cause: str) -> WhyNot:
        """Return what keeps a cause from being first, and what could lift it."""
        return self._once(f"why not {cause}", lambda: self._diagnostician.why_not(self.diagnosis, cause))

    def first_against(self, cause: str) -> Versus:
        """Return the first cause beside another."""
        first = self.diagnosis.ranking.first.id
        return self._once(f"versus {cause}", lambda: versus(self.diagnosis, first, cause, self.next_checks()))

    def how_firm(self) -> Firmness:
        """Return how firm the first place is."""
        return self._once("firm", lambda: self._diagnostician.how_firm(self.diagnosis))

    def conflicts(self) -> Conflicts:
        """Return what pulls two ways."""
        return self._once("conflicts", lambda: self._diagnostician.conflicts(self.diagnosis))

    def several(self) -> Several:
        """Return what the probable causes explain between them."""
        return self._once("several", lambda: self._diagnostician.several(self.diagnosis))

    def plan(self) -> Plan:
        """Return what to do; it supposes nothing, so it waits for no other thread."""
        return self._keep("plan", lambda: plan_for(self.diagnosis))

    def _once(self, name: str, work: Callable[[], Result]) -> Result:
        with _ONE_AT_A_TIME:
            return self._keep(name, work)

    def _keep(self, name: str, work: Callable[[], Result]) -> Result:
        if name not in self._kept:
            self._kept[name] = work()
        return cast("Result", self._kept[name])
