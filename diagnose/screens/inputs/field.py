"""What all answer fields share: what they are given, and the messages they send."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from textual.containers import Vertical
from textual.message import Message
from textual.widgets import Input, Static

from diagnose.case import AnswerValue, Case, LeafCount, Place, Plant
from diagnose.questionnaire.units import System
from diagnose.rulebase.model import Question
from diagnose.rulebase.rulebase import RuleBase
from diagnose.screens.inputs.rows import NumberedList

Record = Place | Plant | tuple[LeafCount, ...]
Draft = Mapping[str, str]
"""What was typed or ticked but not entered: name of a field or choice -> its text."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question with the case it is asked in."""

    question: Question
    case: Case
    base: RuleBase
    system: System

    @property
    def south(self) -> bool:
        """Whether the plant stands south of the equator, where "last spring" is another month."""
        return (self.case.place.latitude or 0) < 0


class Given(Message):
    """A question was answered; `record` if the answer is a part of the case itself.

    It names its question, since a second quick key may reach the field of a question already answered.
    """

    def __init__(self, question: str, value: AnswerValue | Record, *, record: bool = False) -> None:
        super().__init__()
        self.question, self.value, self.record = question, value, record


class Kept(Message):
    """A part of an answer is to be kept; more is to come."""

    def __init__(self, question: str, value: Sequence[LeafCount]) -> None:
        super().__init__()
        self.question, self.value = question, tuple(value)


class NotKnown(Message):
    """The grower does not know the answer to a question."""

    def __init__(self, question: str) -> None:
        super().__init__()
        self.question = question


class AnswerField(Vertical):
    """Base of the answer widgets; the echo line below the field says what was understood or what is wrong."""

    DEFAULT_CSS = """
    AnswerField { height: auto; }
    AnswerField .echo { height: auto; min-height: 1; color: $muted; padding: 0 1; }
    AnswerField .echo.ready { color: $foreground; }
    AnswerField .echo.problem { color: $against; }
    """

    def __init__(self, asked: Asked, draft: Draft | None = None) -> None:
        super().__init__()
        self.asked = asked
        self.entered = False
        """Whether the question was answered, or said not to be known, since it is shown."""
        self._draft = draft
        self._begun: Draft | None = None

    def on_mount(self) -> None:
        """Put back what was typed before but not entered."""
        self._begun = self.written()
        if self._draft is not None:
            self.write(self._draft)

    def on_descendant_focus(self) -> None:
        """Show by the echo line's colour that keys are taken now."""
        self.query_one("#echo").add_class("ready")

    def typed(self) -> Draft | None:
        """Return what was typed since the question is shown and not entered; None if that is nothing."""
        if self.entered:
            return None
        if self._begun is None:  # not on the screen yet
            return self._draft
        written = self.written()
        return None if written == self._begun else written

    def written(self) -> Draft:
        """Return what stands in the field."""
        return {field.id or "": field.value for field in self.query(Input)}

    def write(self, draft: Draft) -> None:
        """Write into the field."""
        for field in self.query(Input):
            field.value = draft.get(field.id or "", "")

    def on_numbered_list_missed(self, message: NumberedList.Missed) -> None:
        """Say that a key chose nothing."""
        message.stop()
        self.say(message.said, wrong=True)

    def give(self, value: AnswerValue | Record, *, record: bool = False) -> None:
        """Answer the field's question."""
        self.entered = True
        self.post_message(Given(self.asked.question.id, value, record=record))

    def do_not_know(self) -> None:
        """Say that the answer to the field's question is not known."""
        self.entered = True
        self.post_message(NotKnown(self.asked.question.id))

    def echo(self, said: str = "") -> Static:
        """Return the echo line."""
        return Static(said, markup=False, classes="echo", id="echo")

    def say(self, text: str, *, wrong: bool = False) -> None:
        """Show what was understood, or what is wrong."""
        echo = self.query_one("#echo", Static)
        echo.set_class(wrong, "problem")
        echo.update(text)
