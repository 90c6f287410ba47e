"""Which causes a plan is for, and which of their steps are given, held back, or wait for an answer."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagnose.facts import fact_names
from diagnose.language import _
from diagnose.measures.measure import Value
from diagnose.plan.records import Held, Unasked
from diagnose.ranking import PROBABLE, RankedCause, Ranking
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.logic import truth
from diagnose.rulebase.model import Advice
from diagnose.rulebase.rulebase import RuleBase

DOUBT = 0.10
"""A step that would be wrong for a cause at least this probable is held back: below 10 % a cause is "very
unlikely" in the scale of PROBABLE. Harm weighs more than delay, so it is lower (common practice)."""

LIKELY = 0.66
"""From here on a cause is "likely" in the same scale. To withhold water or feed for a cause less than that, and not
the first, is no matter of haste (common practice)."""

_MOVES = ("light", "place")
"""What a step alters that moves the plant."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """An advice to give, with the names of the causes it is for."""

    advice: Advice
    causes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """The advice of all probable causes, sorted out."""

    given: tuple[Chosen, ...]
    held: tuple[Held, ...]
    unasked: tuple[Unasked, ...]


def probable(ranking: Ranking) -> tuple[RankedCause, ...]:
    """Return the first cause, those too close to it to call, and those at least PROBABLE, in their order."""
    return tuple(cause for cause in ranking.causes if _leads(cause, ranking) or cause.probability >= PROBABLE)


def only_looks(ranking: Ranking) -> str:
    """Return why nothing may be changed yet, or an empty text."""
    return {
        "too_little": _(
            "Too little is known to change anything: these steps only look. Answer more questions first."
        ),
        "none_likely": _("No cause is likely so far, so nothing is to be changed: these steps only look."),
    }.get(ranking.verdict, "")


def choose(
    base: RuleBase, values: Mapping[str, Value], findings: Collection[str], ranking: Ranking
) -> Choice:
    """Return the steps of the probable causes, each once, in the order of `Advice.order`."""
    for_causes: dict[str, list[RankedCause]] = {}
    for cause in probable(ranking):
        for advice_id in base.causes[cause.id].advice:
            for_causes.setdefault(advice_id, []).append(cause)
    given, held, unasked = [], [], []
    looks_alone = only_looks(ranking)
    for advice in sorted((base.advice[i] for i in for_causes), key=lambda advice: (advice.order, advice.id)):
        causes = for_causes[advice.id]
        names = tuple(cause.name for cause in causes)
        known = "true" if advice.when is None else truth(advice.when, values, findings)
        if known == "unknown" and advice.when is not None:
            unasked.append(Unasked(advice.id, advice.text, _missing(advice.when, base, values)))
        elif (
            known == "true"
            and not (looks_alone and advice.changes != "nothing")
            and not _told(advice, base, values)
        ):
            doubts = _doubts(advice, ranking)
            if doubts or (waits(advice) and not any(_leads(cause, ranking) for cause in causes)):
                house = base.is_house("advice", advice.id)
                held.append(Held(advice.id, advice.text, advice.how, doubts, advice.hold_until, names, house))
            else:
                given.append(Chosen(_paced(advice, causes), names))
    return Choice(_without_contradiction(given), tuple(held), tuple(unasked))


def waits(advice: Advice) -> bool:
    """Return whether a step consists of leaving things as they are."""
    return advice.changes == "nothing" and advice.effort == "wait"


def _paced(advice: Advice, causes: Sequence[RankedCause]) -> Advice:
    """Return a step with the haste that its causes deserve."""
    is_withholding = advice.effort == "wait" and advice.changes != "nothing"
    if is_withholding and not any(cause.rank == 1 or cause.probability >= LIKELY for cause in causes):
        return advice.model_copy(update={"pace": "beside"})
    return advice


def _without_contradiction(given: Sequence[Chosen]) -> tuple[Chosen, ...]:
    """Leave out waiting in one place for a cause that is answered by moving the plant step by step."""
    moved = {
        cause
        for one in given
        if one.advice.changes in _MOVES and one.advice.pace == "in_turn"
        for cause in one.causes
    }
    return tuple(one for one in given if not (waits(one.advice) and moved.intersection(one.causes)))


def _leads(cause: RankedCause, ranking: Ranking) -> bool:
    return cause.rank == 1 or cause.id in ranking.close


def _doubts(advice: Advice, ranking: Ranking) -> tuple[tuple[str, float], ...]:
    """Return the causes that speak against a step and are probable enough to heed, with their probability."""
    causes = (ranking.of(cause) for cause in advice.unless)
    return tuple((cause.name, cause.probability) for cause in causes if cause.probability >= DOUBT)


def _told(advice: Advice, base: RuleBase, values: Mapping[str, Value]) -> bool:
    """Return whether a look would only find what was answered already."""
    return bool(advice.tells) and all(
        any(fact in values for fact in fact_names(base.questions[question])) for question in advice.tells
    )


def _missing(condition: Condition, base: RuleBase, values: Mapping[str, Value]) -> tuple[str, ...]:
    """Return the ids of the questions whose answers a condition lacks, each once."""
    facts = dict.fromkeys(fact.partition(".")[0] for fact in _facts(condition) if fact not in values)
    return tuple(fact for fact in facts if fact in base.questions)


def _facts(condition: Condition) -> Iterator[str]:
    if condition.fact is not None:
        yield condition.fact
    for part in (*(condition.all or ()), *(condition.any or ())):
        yield from _facts(part)
