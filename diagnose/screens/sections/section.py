"""What every page of the review is."""

from typing import ClassVar

from textual.containers import Vertical
from textual.message import Message

from diagnose.questionnaire import Questionnaire


class GoTo(Message):
    """The grower wants to go to a question."""

    def __init__(self, question: str) -> None:
        super().__init__()
        self.question = question


class ChooseCause(Message):
    """The grower wants to see another cause."""

    def __init__(self, cause: str) -> None:
        super().__init__()
        self.cause = cause


class Section(Vertical):
    """A page; `show` is called when it is turned to, and whenever the cause or the diagnosis changes under it."""

    ABOUT_CAUSE: ClassVar[bool] = True
    """Whether the page is about the chosen cause. Others take all the room there is on small screens."""

    DEFAULT_CSS = "Section { height: 1fr; }"

    def show(self, asked: Questionnaire, cause: str) -> None:
        """Show a cause of the case in hand."""
        raise NotImplementedError

    def leave(self) -> None:
        """Let go of work that takes long; called when another page or screen is turned to."""

    def come_back(self) -> None:
        """Take up work that was let go of."""
