"""What was not known: questions that apply and have no answer."""

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from diagnose.questionnaire import Questionnaire
from diagnose.screens.sections.section import GoTo, Section
from diagnose.screens.rows import Rows


class NotKnownSection(Section):
    """Enter goes to a question."""

    DEFAULT_CSS = """
    NotKnownSection OptionList { height: 1fr; }
    NotKnownSection #what { color: $muted; padding: 0 1; margin-bottom: 1; }
    """

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        yield Static(markup=False, id="what")
        yield Rows()

    def show(self, asked: Questionnaire, cause: str) -> None:
        """List the questions; they are the same for every cause."""
        del cause
        waiting = asked.diagnosis.unanswered
        said = "Not known, so neither for nor against any cause. Enter goes to a question."
        self.query_one("#what", Static).update(said if waiting else "Every question that applies was answered.")
        options = self.query_one(OptionList)
        options.clear_options()
        for question in waiting:
            mark = "?  " if question.id in asked.case.not_known else "   "
            options.add_option(Option(Content.assemble((mark, "$accent"), question.text), id=question.id))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Go to a question."""
        event.stop()
        self.post_message(GoTo(event.option_id or ""))
