"""When to take each step: looks and harm first, then one change at a time, each judged before the next of its kind."""

import datetime as dt
from collections.abc import Iterable, Sequence
from itertools import groupby

from diagnose.plan.choose import Chosen, waits
from diagnose.plan.records import Kind, LookAgain, Step
from diagnose.rulebase.model import Advice
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import RuleBase

BETWEEN_CHANGES = dt.timedelta(days=14)
"""From one change to the next, so that one can tell what helped: two weeks, or one new leaf (common practice)."""

_DAY = dt.timedelta(days=1)

LOOKS_A_DAY = 4
"""More looks than this in one day are not taken (common practice, no source): the rest follow day by day."""


def dated(given: Sequence[Chosen], today: dt.date, base: RuleBase) -> tuple[Step, ...]:
    """Return the steps with their dates, by date and then in the order given (safest first).

    Looks, LOOKS_A_DAY of them, and waiting begin today. So does what averts harm and what is too small to matter.
    All other changes follow one at a time, after the looks, BETWEEN_CHANGES apart and after what was done at once or
    waited for; and none alters what an earlier step altered before that one was looked at again. Work at the roots is
    done in one go: each unpotting costs roots.
    """
    calendar = _Calendar(today)
    starts: dict[str, dt.date] = {}
    for advice in (one.advice for one in given if one.advice.changes == "nothing"):
        starts[advice.id] = calendar.look() if _kind(advice) == "look" else today
        if waits(advice):
            calendar.wait(advice)
    changes = [one.advice for one in given if one.advice.changes != "nothing"]
    for advice in (change for change in changes if change.pace != "in_turn"):
        starts[advice.id] = calendar.soon(advice)
    for advice in (change for change in changes if change.pace == "in_turn"):
        starts[advice.id] = calendar.in_turn(advice)
    steps = [_step(one, starts[one.advice.id], base) for one in given]
    return tuple(sorted(steps, key=lambda step: step.date))


def looks_again(steps: Iterable[Step]) -> tuple[LookAgain, ...]:
    """Return the days to look again, each with the steps to judge and what should be seen."""
    due = sorted(
        ((step.look_again, step) for step in steps if step.look_again is not None), key=lambda pair: pair[0]
    )
    return tuple(
        LookAgain(date, tuple((step.id, step.text, step.expect) for _, step in pairs))
        for date, pairs in groupby(due, key=lambda pair: pair[0])
    )


class _Calendar:
    """From when each thing may be changed again, and from when the next change in turn may begin."""

    def __init__(self, today: dt.date) -> None:
        self._today = today
        self._turn = today + _DAY  # looks come before changes
        self._looks = 0
        self._free: dict[str, dt.date] = {}
        self._roots: dt.date | None = None

    def look(self) -> dt.date:
        start = self._today + self._looks // LOOKS_A_DAY * _DAY
        self._looks += 1
        self._turn = max(self._turn, start + _DAY)
        return start

    def wait(self, advice: Advice) -> None:
        self._turn = max(self._turn, self._today + _watch(advice))

    def soon(self, advice: Advice) -> dt.date:
        start = self._start(advice, self._today)
        if advice.pace == "at_once":
            self._turn = max(self._turn, start + BETWEEN_CHANGES)
        return start

    def in_turn(self, advice: Advice) -> dt.date:
        start = self._start(advice, self._turn)
        if not (_at_roots(advice) and start < self._turn):  # one unpotting is one change
            self._turn = start + BETWEEN_CHANGES
        return start

    def _start(self, advice: Advice, earliest: dt.date) -> dt.date:
        if _at_roots(advice) and self._roots is not None:
            start = self._roots
        else:
            start = max(earliest, self._free.get(advice.changes, self._today))
            if _at_roots(advice):
                self._roots = start
        self._free[advice.changes] = max(self._free.get(advice.changes, start), start + _watch(advice))
        return start


def _at_roots(advice: Advice) -> bool:
    return advice.changes == "roots"


def _watch(advice: Advice) -> dt.timedelta:
    return dt.timedelta(days=advice.look_again_days) if advice.look_again_days else BETWEEN_CHANGES


def _kind(advice: Advice) -> Kind:
    if advice.changes != "nothing":
        return "change"
    if advice.effort == "think" and not advice.tells:
        return "mind"
    return "wait" if waits(advice) else "look"


def _step(one: Chosen, start: dt.date, base: RuleBase) -> Step:
    advice = one.advice
    return Step(
        id=advice.id,
        text=advice.text,
        how=advice.how,
        kind=_kind(advice),
        changes=advice.changes,
        pace=advice.pace,
        effort=advice.effort,
        date=start,
        look_again=start + dt.timedelta(days=advice.look_again_days) if advice.look_again_days else None,
        expect=advice.expect,
        causes=one.causes,
        cautions=advice.caution,
        origin=listed(advice.origin),
        house=base.is_house("advice", advice.id),
    )
