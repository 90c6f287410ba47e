"""More about one question: how to look, why it is asked, and what each answer would tell."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Label, Static

from diagnose.language import _
from diagnose.problems import BadInputError
from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.telling import Telling, telling
from diagnose.report.words import decibans, with_house
from diagnose.rulebase.model import Question


class AboutQuestion(ModalScreen[None]):
    """A window over the question; what each answer would tell is worked out in the background."""

    CSS = """
    AboutQuestion { align: center middle; }
    AboutQuestion > Vertical {
        width: 92; max-width: 95%; height: auto; max-height: 92%;
        padding: 1 2; border: round $line; background: $background;
    }
    AboutQuestion VerticalScroll { height: auto; max-height: 100%; }
    AboutQuestion .heading-left { width: 100%; text-wrap: wrap; }
    AboutQuestion #way-back { margin: 0; }
    AboutQuestion Static { margin-bottom: 1; }
    """
    BINDINGS: ClassVar = [Binding("escape,enter,f3", "dismiss", show=False)]

    class Told(Message):
        """It was worked out what each answer would tell."""

        def __init__(self, tellings: tuple[Telling, ...]) -> None:
            super().__init__()
            self.tellings = tellings

    def __init__(self, asked: Questionnaire, question: Question) -> None:
        super().__init__()
        self._asked, self._question = asked, question

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical(), VerticalScroll():
            house = self._asked.diagnosis.base.is_house("question", self._question.id)
            text = with_house(self._question.text, house=house)
            yield Label(text, markup=False, classes="heading-left")
            for title, said in (
                (_("How to look"), self._question.help),
                (_("Why it is asked"), self._question.why),
            ):
                yield Static(Content.assemble((f"{title}\n", "$muted"), said))
            yield Static(id="tellings")
            yield Static(Content(_("Esc goes back to the question.")), classes="muted", id="way-back")

    def on_mount(self) -> None:
        """Work out what each answer would tell, for questions with choices."""
        if self._question.kind in ("choice", "yes_no"):
            waiting = Content.styled(_("What each answer would tell …"), "$muted")
            self.query_one("#tellings", Static).update(waiting)
            self.run_worker(self._work, thread=True, exclusive=True)
        else:
            self.query_one("#tellings").display = False

    def _work(self) -> None:
        try:
            self.post_message(self.Told(telling(self._asked.diagnostician, self._asked.case, self._question)))
        except BadInputError:
            self.post_message(self.Told(()))

    def on_about_question_told(self, message: Told) -> None:
        """Show it."""
        heading = _("What each answer would tell (+ speaks for a cause, - against it)")
        lines = [Content.styled(heading, "$muted")]
        for one in message.tellings:
            moved = "; ".join(f"{decibans(by)} {name}" for name, by in one.moved) or _("nothing by itself")
            lines.append(Content.assemble(one.label, (f": {moved}", "$muted")))
        self.query_one("#tellings", Static).update(Content("\n").join(lines))
