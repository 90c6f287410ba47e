"""One of several choices, yes and no included."""

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList

from diagnose.facts import AnswerError, read_answer
from diagnose.language import _
from diagnose.questionnaire.typed import choices_of
from diagnose.screens.inputs.field import AnswerField
from diagnose.screens.inputs.rows import NOT_KNOWN, NumberedList


class ChoiceField(AnswerField):
    """A row for each choice; the earlier answer is marked in words."""

    def compose(self) -> ComposeResult:
        """Lay the rows out."""
        chosen = self._chosen()
        choices = choices_of(self.asked.question)
        rows = [
            Content.assemble(label, ("   " + _("your answer"), "$muted"))
            if choice == chosen
            else Content(label)
            for choice, label in choices
        ]
        ids = [choice for choice, _ in choices]
        unknown = self.asked.question.id in self.asked.case.not_known
        yield NumberedList(rows, ids.index(chosen) if chosen in ids else len(ids) if unknown else None)
        yield self.echo(_("A number answers; arrows mark a row, Enter takes it."))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Give the chosen answer."""
        event.stop()
        if event.option_id == NOT_KNOWN:
            self.do_not_know()
        else:
            self.give(choices_of(self.asked.question)[int(event.option_id or 0)][0])

    def _chosen(self) -> str | None:
        question, case = self.asked.question, self.asked.case
        if question.id not in case.answers:
            return None
        try:
            return str(read_answer(question, case.answers[question.id], case.date)[0][1])
        except AnswerError:
            return None
