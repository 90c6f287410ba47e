"""One case being filled in. Each answer is on disk before the next question shows."""

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from diagnose.case import AnswerValue, Case, LeafCount, Place, Plant
from diagnose.casefile import write_case
from diagnose.diagnosis import Diagnosis, Diagnostician
from diagnose.questionnaire.order import next_open
from diagnose.questionnaire.outline import Item, newly_skipped, outline
from diagnose.rulebase.model import Question, Subject

_FIELDS = {"place": "place", "plant_profile": "plant", "leaf_history": "leaf_history"}


@dataclass(frozen=True, slots=True)
class Progress:
    """How far one subject is: questions done (answered or not known) of those that apply."""

    subject: Subject
    done: int
    total: int


class Questionnaire:
    """Where the grower is in the questions, what was answered, and the way back.

    With `at_once` every change is diagnosed before the method returns. Without it the caller diagnoses `case`
    when and where it likes and hands the result to `settle`; until then `diagnosis` is of an earlier case.
    """

    def __init__(
        self,
        diagnostician: Diagnostician,
        case: Case,
        path: Path,
        *,
        at_once: bool = True,
        at: str | None = None,
        keep: Callable[[Case, Case], None] | None = None,
    ) -> None:
        self.diagnostician = diagnostician
        self.path = path
        """Where the answers are kept: a case file, unless `keep` (case before, case after) keeps them elsewhere."""
        self._keep = keep or (lambda _, after: write_case(path, after))
        self.diagnosis: Diagnosis = diagnostician.diagnose(case)
        self.skipped_now: tuple[tuple[int, str], ...] = ()
        """(how many, why): open questions that the last change made needless."""
        self.telling: tuple[str, ...] = ()
        """Ids of open questions, the most telling first; empty: questions come by subject."""
        self.enough = False
        """Whether what is still open would hardly move the ranking; known only if `telling` is."""
        self._at_once = at_once
        self._case = case
        self._settled: Case | None = case
        self._undo: list[tuple[Case, str | None]] = []
        self.items: tuple[Item, ...] = outline(case, self.diagnosis)
        """Every question with its state."""
        self._current: str | None = None
        if at in self.diagnosis.base.questions:
            self._current = at
        else:
            self.forward()

    @property
    def case(self) -> Case:
        """The case as it was told so far (without what was looked up)."""
        return self._case

    @property
    def is_behind(self) -> bool:
        """Whether the diagnosis is still of an earlier case."""
        return self._settled is not self._case

    @property
    def current(self) -> Question | None:
        """The question being asked, None at the end."""
        return self.diagnosis.base.questions.get(self._current) if self._current else None

    @property
    def applicable(self) -> tuple[Question, ...]:
        """All questions that apply, in order."""
        return tuple(item.question for item in self.items if item.state != "skipped")

    def is_done(self, question: Question) -> bool:
        """Whether a question was answered or said not to be known."""
        return any(
            item.question == question and item.state in ("answered", "not known") for item in self.items
        )

    def forward(self) -> None:
        """Go to the next question not yet done: the most telling one if `telling` is set, else by subject."""
        self._current = next_open(self.items, self._current, self.telling)

    def step(self, by: int) -> None:
        """Go `by` questions forward or back, done or not; stops at both ends."""
        ids = [question.id for question in self.applicable]
        if not ids:
            return
        here = ids.index(self._current) if self._current in ids else len(ids)
        self._current = ids[min(max(here + by, 0), len(ids) - 1)]

    def jump(self, question_id: str) -> None:
        """Go to any question."""
        self._current = question_id

    def answer(self, value: AnswerValue) -> None:
        """Answer the current question and go on."""
        question = self._asked()
        self._change(
            answers=self._case.answers | {question.id: value}, not_known=self._not_known_but(question)
        )
        self.forward()

    def do_not_know(self) -> None:
        """Say that the current question's answer is not known, take back any answer, and go on."""
        question = self._asked()
        answers = {name: value for name, value in self._case.answers.items() if name != question.id}
        self._change(answers=answers, not_known=(*self._not_known_but(question), question.id))
        self.forward()

    def record(self, value: Place | Plant | Sequence[LeafCount]) -> None:
        """Answer a question whose answer is a part of the case itself, and go on."""
        self.keep(value)
        self.forward()

    def keep(self, value: Place | Plant | Sequence[LeafCount]) -> None:
        """As `record`, but stay at the question: more is to come."""
        question = self._asked()
        kept = tuple(value) if isinstance(value, Sequence) else value
        self._change(**{_FIELDS[question.kind]: kept}, not_known=self._not_known_but(question))

    def rename(self, title: str) -> None:
        """Give the case its name; the current question stays."""
        self._change(title=title)

    def undo(self) -> bool:
        """Take the last change back and return to its question; False if there is none."""
        if not self._undo:
            return False
        case, current = self._undo[-1]
        self._keep(self._case, case)
        self._undo.pop()
        self._current = current
        self._set(case)
        return True

    def settle(self, case: Case, diagnosis: Diagnosis) -> bool:
        """Take the diagnosis of a case; False (and no change) if the case has changed since."""
        if case is not self._case:
            return False
        self.diagnosis, self._settled = diagnosis, case
        self.items = outline(case, diagnosis)
        if self._current and any(i.question.id == self._current and i.state == "skipped" for i in self.items):
            self.forward()
        return True

    def use(self, diagnostician: Diagnostician) -> None:
        """Go on with other rules; the case has to be diagnosed again, which the caller does as after an answer."""
        self.diagnostician = diagnostician
        self._settled = None

    def progress(self) -> tuple[Progress, ...]:
        """Return how far each subject is."""
        subjects = self.diagnosis.base.subjects
        states: dict[str, list[str]] = {}
        for item in self.items:
            if item.state != "skipped":
                states.setdefault(item.question.subject, []).append(item.state)
        return tuple(
            Progress(subjects[subject], sum(state != "open" for state in found), len(found))
            for subject, found in sorted(states.items(), key=lambda one: subjects[one[0]].order)
        )

    def _asked(self) -> Question:
        if self.current is None:
            raise ValueError("no question is being asked")
        return self.current

    def _not_known_but(self, question: Question) -> tuple[str, ...]:
        return tuple(one for one in self._case.not_known if one != question.id)

    def _change(self, **fields: Any) -> None:
        case = Case.model_validate(self._case.model_dump() | fields)
        self._keep(self._case, case)
        self._undo.append((self._case, self._current))
        self._set(case)

    def _set(self, case: Case) -> None:
        before, self._case = self.items, case
        if self._at_once:
            self.diagnosis, self._settled = self.diagnostician.diagnose(case), case
        self.items = outline(case, self.diagnosis)
        self.skipped_now = newly_skipped(before, self.items)


def new_case_path(folder: Path, today: dt.date, name: str = "") -> Path:
    """Return a path for a new case that no file has yet."""
    plain = "".join(c if c.isalnum() and c.isascii() else "-" for c in name.lower()).strip("-")
    stem = f"{today.isoformat()}-{plain}" if plain else today.isoformat()
    paths = (folder / f"{stem}{'' if n == 1 else f'-{n}'}.toml" for n in range(1, 10_000))
    return next(path for path in paths if not path.exists())
