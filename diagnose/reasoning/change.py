"""What would change it: the smallest set of answers that, had they been others, would put another cause first.

One and two changed answers are searched to the end, three as far as `search.MOST_TRIED` goes.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.reasoning.alternatives import alternatives
from diagnose.reasoning.known import answer_of, answered
from diagnose.reasoning.next_checks import Move, moves
from diagnose.reasoning.options import options
from diagnose.reasoning.search import Single, search
from diagnose.reasoning.suppose import Changes, Supposed, Supposing
from diagnose.rulebase.model import Question

MOST_SHOWN = 12
"""Sets handed over; the number found is told."""


@dataclass(frozen=True, slots=True)
class Changed:
    """One answer and what it would be instead (None: not known)."""

    question: Question
    now: AnswerValue | None
    instead: AnswerValue | None


@dataclass(frozen=True, slots=True)
class WhatIfAnswer:
    """Before and after some answers are changed."""

    changes: tuple[Changed, ...]
    before: Supposed
    after: Supposed
    moves: tuple[Move, ...]

    @property
    def changes_first(self) -> bool:
        """Whether another cause would come first."""
        return self.before.first != self.after.first


@dataclass(frozen=True, slots=True)
class WhatWouldChange:
    """The smallest sets of changed answers that put another cause first."""

    size: int
    """Answers in each set; 0 if no set was found."""
    found: tuple[WhatIfAnswer, ...]
    """Those to show: answers that growers give most often first."""
    count: int
    """How many sets of that size were found."""
    searched: int
    """Sets up to this size were all looked at."""
    cut_off: bool
    """Whether the search stopped before its end."""
    answers: int
    """How many answers could be changed."""


def what_if(supposing: Supposing, changes: Changes) -> WhatIfAnswer:
    """Return what changing these answers would do; the case stays as it is.

    Raises:
        AnswerError: a question does not take its answer.
        KeyError: there is no such question.

    """
    known = supposing.known
    after = supposing.suppose(changes)
    return WhatIfAnswer(
        tuple(
            Changed(question, answer_of(known, question), instead)
            for name, instead in sorted(changes.items())
            for question in [known.base.questions[name]]
        ),
        supposing.now,
        after,
        moves(supposing.now, after),
    )


def what_would_change(supposing: Supposing) -> WhatWouldChange:
    """Return the smallest sets of one, two or three changed answers that put another cause first."""
    questions = answered(supposing.known)
    singles = [
        (question.id, instead) for question in questions for instead in alternatives(supposing, question)
    ]
    found = search(supposing, singles)
    shares = _shares(questions, supposing)
    shown = sorted(found.sets, key=lambda one: _uncommon(one, shares))[:MOST_SHOWN]
    return WhatWouldChange(
        len(found.sets[0]) if found.sets else 0,
        tuple(what_if(supposing, dict(one)) for one in shown),
        len(found.sets),
        found.searched,
        found.cut_off,
        len(questions),
    )


def _shares(questions: Sequence[Question], supposing: Supposing) -> dict[Single, float]:
    today = supposing.known.gathered.case.date
    return {(q.id, option.answer): option.share for q in questions for option in options(q, today)}


def _uncommon(one: tuple[Single, ...], shares: Mapping[Single, float]) -> tuple[float, str]:
    """Order sets so that answers which growers often give come first; others count as the rarest."""
    return -math.prod(shares.get(single, 0.01) for single in one), str(one)
