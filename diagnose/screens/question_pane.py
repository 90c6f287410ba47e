"""The question in hand: where it belongs, its text, the field for its answer, and how to look."""

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Label, OptionList, Static

from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.units import System
from diagnose.rulebase.model import Question
from diagnose.screens.inputs import Asked, field_for

_EFFORT = {
    "think": "from memory",
    "look": "by looking",
    "touch": "by touching",
    "unpot": "by lifting it out of its pot",
    "wait": "by waiting and watching",
}


_ENOUGH = "What is still open would hardly move the ranking: F8 goes to it."


class QuestionPane(VerticalScroll, can_focus=False):
    """One question; or, at the end, what the answers came to."""

    DEFAULT_CSS = """
    QuestionPane .subject { color: $muted; width: 100%; }
    QuestionPane .question { text-style: bold; margin: 1 0; width: 100%; max-width: 76; }
    QuestionPane .subject { max-width: 76; }
    QuestionPane .part { color: $muted; margin-top: 1; width: 100%; max-width: 76; }
    QuestionPane .caution { color: $against; margin-top: 1; width: 100%; max-width: 76; }
    QuestionPane AnswerField { max-width: 90; }
    """

    def show(self, asked: Questionnaire, system: System, verdict: str) -> None:
        """Show the question in hand."""
        question = asked.current
        parts = self._end(verdict) if question is None else self._question(asked, question, system)
        with self.app.batch_update():
            self.remove_children()
            self.mount(*parts)
        self.scroll_home(animate=False)
        self.call_after_refresh(self._focus)

    def tell_enough(self, enough: bool) -> None:
        """Say whether what is still open would hardly matter, without touching what is being typed."""
        for label in self.query(".enough"):
            label.display = enough

    def _question(self, asked: Questionnaire, question: Question, system: System) -> ComposeResult:
        base = asked.diagnosis.base
        subject = base.subjects[question.subject].name
        mine = [q for q in asked.applicable if q.subject == question.subject]
        place = (
            f", question {mine.index(question) + 1} of {len(mine)}"
            if question in mine
            else ", does not apply here"
        )
        yield Label(f"{subject}{place}, {_EFFORT[question.effort]}", markup=False, classes="subject")
        for count, reason in asked.skipped_now:
            said = f"Skipped {count} question{'s' if count > 1 else ''}: {reason}."
            yield Label(said, markup=False, classes="subject")
        enough = Label(_ENOUGH, markup=False, classes="subject enough")
        enough.display = asked.enough
        yield enough
        yield Label(question.text, markup=False, classes="question")
        yield field_for(Asked(question, asked.case, base, system))
        for caution in question.caution:
            if caution in base.cautions:
                yield Label(f"Take care: {base.cautions[caution].text}", markup=False, classes="caution")
        yield _part("How to look", question.help)
        yield _part("Why it is asked", question.why)

    def _end(self, verdict: str) -> ComposeResult:
        yield Label("All questions are done", markup=False, classes="subject")
        yield Label(verdict, markup=False, classes="question")
        yield Label(
            "Press F8 for the reasons behind every rank, or F7 to go back to any question. "
            "The case is saved; you can come back to it when something has changed.",
            markup=False,
            classes="part",
        )

    def _focus(self) -> None:
        for kind in (Input, OptionList):
            for field in self.query(kind):
                if field.display:
                    field.focus(scroll_visible=False)
                    return


def _part(title: str, text: str) -> Static:
    return Static(Content.assemble((f"{title}  ", "$foreground"), text), classes="part")
