"""Firings -> a ledger for every cause -> scores. A score is exactly the sum of its ledger's lines."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from diagnose.engine import OTHERWISE, Firing
from diagnose.facts import Fact
from diagnose.language import _
from diagnose.rulebase.groups import group_said
from diagnose.rulebase.model import Evidence
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.strengths import CLOSE_DB, DECIBANS, GROUP_DISCOUNT, probability

FEWEST_FACTS = 4
"""With fewer known facts behind all ledgers together (the plant's kind apart) there is too little to rank (common
practice, no source)."""

PROBABLE = 1 / 3
"""A cause at least this probable is reckoned with beside the first: "about as likely as not" begins at 33 % in the
likelihood scale of Mastrandrea et al. 2010 (from memory)."""

Verdict = Literal["clear", "close", "none_likely", "too_little"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a ledger: decibans for (+) or against (-) the cause, its sentence, and what it rests on."""

    kind: Literal["prior", "evidence", "discount"]
    decibans: float
    text: str
    rule: str
    """Id of the evidence rule, of the cause (prior) or of the group (discount)."""
    facts: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    origin: tuple[str, ...] = ()
    house: bool = False


@dataclass(frozen=True, slots=True)
class RankedCause:
    """One cause at its rank (from 1) with its ledger: prior, evidence by weight, then what overlaps take back."""

    id: str
    name: str
    rank: int
    score_db: float
    probability: float
    lines: tuple[Line, ...]
    house: bool


@dataclass(frozen=True, slots=True)
class Ranking:
    """All causes in order, and how far the order can be trusted."""

    causes: tuple[RankedCause, ...]
    verdict: Verdict
    close: tuple[str, ...]
    """Ids of the causes too close to the first to call."""

    @property
    def first(self) -> RankedCause:
        """The cause at rank 1."""
        return self.causes[0]

    def of(self, cause: str) -> RankedCause:
        """Return a cause's place in the ranking."""
        return next(ranked for ranked in self.causes if ranked.id == cause)


def rank(base: RuleBase, facts: Mapping[str, Fact], firings: Iterable[Firing]) -> Ranking:
    """Return every cause's ledger and score, ordered by score, then by id."""
    fired: dict[str, list[Line]] = defaultdict(list)
    groups: dict[tuple[str, str], list[float]] = defaultdict(list)
    used: set[str] = set()
    for firing in firings:
        opposite = firing.rule.endswith(OTHERWISE)
        rule_id = firing.rule.removesuffix(OTHERWISE)
        used.update(name for name in firing.facts if facts[name].source != "plant")
        evidence = base.evidence.get(rule_id)
        if evidence is None:
            continue
        decibans = weight(evidence, opposite=opposite)
        text = evidence.otherwise_because if opposite else evidence.because
        fired[evidence.cause].append(
            Line(
                "evidence",
                decibans,
                fill(text, facts),
                rule_id,
                firing.facts,
                firing.findings,
                listed(evidence.origin),
                base.is_house("evidence", rule_id),
            )
        )
        if evidence.group:
            groups[evidence.cause, evidence.group].append(decibans)
    for (cause, group), weights in groups.items():
        if discount(weights):
            fired[cause].append(_discount_line(group, weights))
    ledgers = {cause: _ledger(base, cause, fired[cause]) for cause in base.causes}
    scores = {cause: sum(line.decibans for line in lines) for cause, lines in ledgers.items()}
    ordered = order(scores)
    causes = tuple(
        RankedCause(
            cause,
            base.causes[cause].name,
            place,
            scores[cause],
            probability(scores[cause]),
            ledgers[cause],
            base.is_house("cause", cause),
        )
        for place, cause in enumerate(ordered, start=1)
    )
    close = tuple(cause for cause in ordered[1:] if scores[ordered[0]] - scores[cause] < CLOSE_DB)
    return Ranking(causes, _verdict(scores[ordered[0]], close, len(used)), close)


@dataclass(frozen=True, slots=True)
class Weight:
    """What one side of a rule weighs: decibans for (+) or against (-) a cause, within a group."""

    cause: str
    group: str | None
    decibans: float


class Scales:
    """The score-only path: which sides of rules fired -> scores, no lines and no words."""

    def __init__(self, base: RuleBase) -> None:
        self.priors = {cause: entry.prior_db for cause, entry in base.causes.items()}
        self._weights: dict[str, Weight] = {}
        self._groups: dict[tuple[float, ...], float] = {}
        for rule in base.evidence.values():
            self._weights[rule.id] = Weight(rule.cause, rule.group, weight(rule, opposite=False))
            if rule.otherwise is not None:
                self._weights[rule.id + OTHERWISE] = Weight(
                    rule.cause, rule.group, weight(rule, opposite=True)
                )

    def of(self, side: str) -> Weight | None:
        """Return what a firing weighs; None if its rule gives a finding."""
        return self._weights.get(side)

    def scores(self, fired: Iterable[str]) -> dict[str, float]:
        """Return the scores that `rank` gives for these firings (ids, with `~otherwise` where it applies)."""
        scores = dict(self.priors)
        groups: dict[tuple[str, str], list[float]] = {}
        for side in fired:
            if (found := self._weights.get(side)) is None:
                continue
            if found.group:
                groups.setdefault((found.cause, found.group), []).append(found.decibans)
            else:
                scores[found.cause] += found.decibans
        for (cause, _group), weights in groups.items():
            scores[cause] += self.group(tuple(weights))
        return scores

    def group(self, weights: tuple[float, ...]) -> float:
        """Return what lines of one group come to together, their discount taken off."""
        if weights not in self._groups:
            self._groups[weights] = sum(weights) + discount(weights)
        return self._groups[weights]


def order(scores: Mapping[str, float]) -> list[str]:
    """Return cause ids from the highest score down; equal scores by id."""
    return sorted(scores, key=lambda cause: (-scores[cause], cause))


def weight(evidence: Evidence, *, opposite: bool) -> float:
    """Return a rule's decibans, signed; its `otherwise` side speaks the other way."""
    sign = 1.0 if evidence.speaks == "for" else -1.0
    if opposite:
        return -sign * DECIBANS[evidence.otherwise or "slight"]
    return sign * DECIBANS[evidence.strength]


def discount(weights: Iterable[float]) -> float:
    """Return what a group's total must be corrected by.

    Of the lines for the cause the strongest counts in full and each further one half as much as the one before, and
    so for the lines against it; each side is then rounded to a quarter. So evidence for a cause never lowers it, a
    group never weighs twice its strongest line, and all sums stay exact.
    """
    given = list(weights)
    return _counted(w for w in given if w > 0) - _counted(-w for w in given if w < 0) - sum(given)


def _counted(weights: Iterable[float]) -> float:
    ordered = sorted(weights, reverse=True)
    return round(4 * sum(w * GROUP_DISCOUNT**place for place, w in enumerate(ordered))) / 4


def fill(template: str, facts: Mapping[str, Fact]) -> str:
    """Fill `{fact_name}` with the fact's value as it is said; nothing else is looked at."""
    pieces = template.split("{")
    text = pieces[0]
    for piece in pieces[1:]:
        name, _brace, rest = piece.partition("}")
        text += (facts[name].said if name in facts else _("not known")) + rest
    return text


def _discount_line(group: str, weights: list[float]) -> Line:
    text = _(
        "{count} lines look at the same thing ({group}); each counts half as much as the stronger one before it."
    ).format(count=len(weights), group=group_said(group))
    return Line("discount", discount(weights), text, group, origin=("common practice",))


def _ledger(base: RuleBase, cause: str, lines: list[Line]) -> tuple[Line, ...]:
    entry = base.causes[cause]
    prior = Line(
        "prior",
        entry.prior_db,
        _("How common this is before anything is known of the plant."),
        cause,
        origin=listed(entry.origin),
        house=base.is_house("cause", cause),
    )

    def place(line: Line) -> tuple[bool, float, str]:
        return line.kind == "discount", -abs(line.decibans), line.rule

    return (prior, *sorted(lines, key=place))


def _verdict(best_db: float, close: tuple[str, ...], facts_used: int) -> Verdict:
    if facts_used < FEWEST_FACTS:
        return "too_little"
    if best_db < 0:
        return "none_likely"
    return "close" if close else "clear"
