"""What settled cases teach: how often the first cause was right, and which rules helped or misled.

Judged by the last ranking made before the case was settled, as it stood. A case has one outcome; causes that may have
been true beside it count as not true.
"""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.calibration import Bin, Calibration, calibration
from diagnose.collection.chance import share_limits
from diagnose.collection.strengths import Suggestion
from diagnose.journal.records import Outcome, RankingRecord
from diagnose.measures.leaves.exact import share_interval

NEAR_FIRST = 3


@dataclass(frozen=True, slots=True)
class Reliability:
    """Forecasts of about one probability, with Jeffreys' 95 % interval of the share that came true."""

    bin: Bin
    low: float
    high: float

    @property
    def agrees(self) -> bool:
        """Whether what was said lies within the interval of what came true."""
        return self.low <= self.bin.stated <= self.high


@dataclass(frozen=True, slots=True)
class RuleRecord:
    """How a rule did. Decibans are those it gave in the right and in the wrong direction."""

    rule: str
    helped: int
    misled: int
    helped_db: float
    misled_db: float

    @property
    def net_db(self) -> float:
        """What the rule gave to the truth, over all cases."""
        return self.helped_db - self.misled_db


@dataclass(frozen=True, slots=True)
class Learned:
    """What the settled cases of a journal teach."""

    cases: int
    """Settled, with a ranking made before and an outcome that the ranking knew."""
    left_out: int
    first_right: int
    near_first: int
    """Cases whose outcome was among the first three."""
    first_low: float
    first_high: float
    """Exact 95 % interval of the share of first_right (Clopper & Pearson 1934, from memory)."""
    said_of_first: float
    """Mean probability that was given to the first cause."""
    calibration: Calibration | None
    """Of every cause of every case; None without a case."""
    reliability: tuple[Reliability, ...]
    rules: tuple[RuleRecord, ...]
    """Those that gave most to the truth first."""
    suggestions: tuple[Suggestion, ...]
    wrong: tuple[tuple[str, str, int], ...]
    """(said first, turned out to be, how often), most often first."""


def learn(
    rankings: Iterable[RankingRecord], outcomes: dict[int, Outcome], suggested: tuple[Suggestion, ...] = ()
) -> Learned:
    """Return what the rankings were worth, given what their cases turned out to be."""
    known, left_out = [], len(outcomes)
    for ranking in rankings:
        outcome = outcomes.get(ranking.case_id)
        if outcome and any(cause.id == outcome.cause for cause in ranking.causes):
            known.append((ranking, outcome.cause))
            left_out -= 1
    places = [[cause.id for cause in ranking.causes].index(true) for ranking, true in known]
    right = places.count(0)
    low, high = share_interval(right, len(known)) if known else (0.0, 1.0)
    forecasts = [(cause.probability, cause.id == true) for ranking, true in known for cause in ranking.causes]
    figures = calibration(forecasts) if forecasts else None
    wrong: dict[tuple[str, str], int] = defaultdict(int)
    for (ranking, true), place in zip(known, places, strict=True):
        if place:
            wrong[ranking.causes[0].id, true] += 1
    return Learned(
        cases=len(known),
        left_out=left_out,
        first_right=right,
        near_first=sum(place < NEAR_FIRST for place in places),
        first_low=low,
        first_high=high,
        said_of_first=math.fsum(r.causes[0].probability for r, _ in known) / len(known) if known else 0.0,
        calibration=figures,
        reliability=tuple(_reliability(one) for one in figures.bins) if figures else (),
        rules=_rules(known),
        suggestions=suggested,
        wrong=tuple((*pair, n) for pair, n in sorted(wrong.items(), key=lambda item: (-item[1], item[0]))),
    )


def _reliability(one: Bin) -> Reliability:
    return Reliability(one, *share_limits(round(one.came_true * one.count), one.count))


def _rules(known: list[tuple[RankingRecord, str]]) -> tuple[RuleRecord, ...]:
    given: dict[str, list[float]] = defaultdict(list)
    for ranking, true in known:
        for cause in ranking.causes:
            sign = 1 if cause.id == true else -1
            for line in cause.lines:
                if line.kind == "evidence":
                    given[line.rule].append(sign * line.decibans)
    records = [
        RuleRecord(
            rule,
            sum(db > 0 for db in gave),
            sum(db < 0 for db in gave),
            math.fsum(db for db in gave if db > 0),
            -math.fsum(db for db in gave if db < 0),
        )
        for rule, gave in given.items()
    ]
    return tuple(sorted(records, key=lambda record: (-record.net_db, record.rule)))
