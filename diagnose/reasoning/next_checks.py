"""What to check next: open questions by what they are expected to tell for the effort they take.

Every possible answer is really tried, through measures, rules and scores.
"""

from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.reasoning.information import chances, expected_bits, told_bits
from diagnose.reasoning.options import options
from diagnose.reasoning.suppose import Supposed, Supposing
from diagnose.rulebase.model import Effort, Question
from diagnose.rulebase.strengths import probability

EFFORT_MINUTES: dict[Effort, float] = {"think": 1, "look": 1.25, "touch": 1.5, "unpot": 8, "wait": 15}
"""What a check costs, as if in minutes (common practice, no source): a minute to read and answer a question, a little
more to look closely or to feel. Unpotting also disturbs roots, and waiting costs days: both count for more than the
hands are busy."""

LITTLE_BITS = 0.05
"""Below this much expected information a question hardly matters (common practice, no source): about what moving
one cause from 50 % to 63 % tells."""

LITTLE_CHANCE = 0.05
"""So does a question that puts another cause first with less than this probability (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Move:
    """What an answer does to one cause."""

    cause: str
    decibans: float
    before: float
    """Probability before."""
    after: float


@dataclass(frozen=True, slots=True)
class Outcome:
    """One possible answer: how probable it is, and what it would do."""

    answer: AnswerValue
    said: str
    chance: float
    bits: float
    moves: tuple[Move, ...]
    """Largest first; causes that stay where they are are left out."""
    first: str
    """The cause that would then come first."""


@dataclass(frozen=True, slots=True)
class Check:
    """One open question: what it is expected to tell, for what effort, and what each answer would do."""

    question: Question
    bits: float
    minutes: float
    changes_first: float
    """Probability that its answer puts another cause first."""
    outcomes: tuple[Outcome, ...]
    said_not_known: bool
    """The grower was asked and did not know; it may still be worth going to look."""

    @property
    def bits_a_minute(self) -> float:
        """Expected information per effort: what checks are ordered by."""
        return self.bits / self.minutes

    @property
    def hardly_matters(self) -> bool:
        """Whether its answer would hardly move the ranking."""
        return self.bits < LITTLE_BITS and self.changes_first < LITTLE_CHANCE


@dataclass(frozen=True, slots=True)
class NextChecks:
    """What to check next, most telling per effort first."""

    checks: tuple[Check, ...]
    unweighed: tuple[Question, ...]
    """Open questions whose answers cannot be listed and tried: place, kind of plant, leaf counts."""
    enough: bool
    """True if no open question would be expected to move the ranking: a good moment to stop."""


def next_checks(supposing: Supposing) -> NextChecks:
    """Return every open question, weighed by really trying its answers.

    What the grower did not know by thinking is left out: thinking again brings nothing.
    """
    known = supposing.known
    case = known.gathered.case
    checks, unweighed = [], []
    for question in known.unanswered:
        asked = question.id in case.not_known
        if not options(question, case.date):
            unweighed.append(question)
        elif not (asked and question.effort == "think"):
            checks.append(weighed(supposing, question, asked=asked))
    checks.sort(key=lambda check: (-check.bits_a_minute, check.question.id))
    return NextChecks(tuple(checks), tuple(unweighed), all(check.hardly_matters for check in checks))


def weighed(supposing: Supposing, question: Question, *, asked: bool = False) -> Check:
    """Return what one question is expected to tell."""
    now = supposing.now
    possible = options(question, supposing.known.gathered.case.date)
    tried = [supposing.suppose({question.id: option.answer}) for option in possible]
    priors = supposing.scales.priors
    likely = chances(
        priors,
        now.scores,
        [(option.share, after.scores) for option, after in zip(possible, tried, strict=True)],
    )
    outcomes = tuple(
        Outcome(
            option.answer,
            option.said,
            chance,
            told_bits(now.scores, after.scores),
            moves(now, after),
            after.first,
        )
        for option, chance, after in zip(possible, likely, tried, strict=True)
    )
    return Check(
        question,
        expected_bits(
            now.scores, [(chance, after.scores) for chance, after in zip(likely, tried, strict=True)]
        ),
        EFFORT_MINUTES[question.effort],
        sum(outcome.chance for outcome in outcomes if outcome.first != now.first),
        outcomes,
        asked,
    )


def moves(before: Supposed, after: Supposed) -> tuple[Move, ...]:
    """Return how each cause moves from one supposition to another, largest move first."""
    found = [
        Move(
            cause,
            after.scores[cause] - score,
            probability(score),
            probability(after.scores[cause]),
        )
        for cause, score in before.scores.items()
        if after.scores[cause] != score
    ]
    return tuple(sorted(found, key=lambda move: (-abs(move.decibans), move.cause)))


def telling_order(supposing: Supposing) -> tuple[Question, ...]:
    """Return the open questions, most telling per effort first.

    Place, kind of plant and leaf counts come before all others: much is measured from them, and what they bring
    cannot be weighed.
    """
    found = next_checks(supposing)
    return (*found.unweighed, *(check.question for check in found.checks))
