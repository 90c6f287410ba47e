"""What every page of the review is."""

from textual.containers import Vertical
from textual.message import Message

from diagnose.questionnaire import Questionnaire


class GoTo(Message):
    """The grower wants to go to a question."""

    def __init__(self, question: str) -> None:
        super().__init__()
        self.question = question


class Section(Vertical):
    """A page about the chosen cause; `show` is called whenever the cause or the diagnosis changes."""

    DEFAULT_CSS = "Section { height: 1fr; }"

    def show(self, asked: Questionnaire, cause: str) -> None:
        """Show a cause of the case in hand."""
        raise NotImplementedError
