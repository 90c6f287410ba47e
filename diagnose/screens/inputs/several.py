"""Any number of choices: ticked one by one, then taken together."""

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList

from diagnose.language import _
from diagnose.questionnaire.said import NONE_OF_THESE
from diagnose.screens.inputs.field import AnswerField, Draft
from diagnose.screens.inputs.rows import NOT_KNOWN, NumberedList

_UNTICKED = "    "
"""Stands where other rows have their tick."""


class SeveralField(AnswerField):
    """Rows with a tick each, then one for none of them and one that takes what is ticked."""

    def compose(self) -> ComposeResult:
        """Lay the rows out."""
        question, case = self.asked.question, self.asked.case
        answer = case.answers.get(question.id)
        self._ids = [choice.id for choice in question.choices]
        self._ticked = {one for one in answer if one in self._ids} if isinstance(answer, tuple) else set()
        rows = [self._row(place) for place in range(len(self._ids))]
        yield NumberedList(
            [*rows, Content(_UNTICKED + _(NONE_OF_THESE)), Content(_UNTICKED + _("that is all"))],
            self._start(answer),
        )
        hint = _("Digits, letters or Enter tick a row; then choose “{done}”.").format(done=_("that is all"))
        yield self.echo(hint)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Tick or untick; or take what is ticked."""
        event.stop()
        if event.option_id == NOT_KNOWN:
            self.do_not_know()
            return
        place = int(event.option_id or 0)
        if place < len(self._ids):
            self._ticked ^= {self._ids[place]}
            rows = self.query_one(NumberedList)
            rows.set_row(place, self._row(place))
            rows.highlighted = place
        elif place == len(self._ids):
            self.give(())
        elif self._ticked:
            self.give(tuple(one for one in self._ids if one in self._ticked))
        else:
            said = _("Nothing is ticked: choose “{none}” or “{unknown}” if that is so.")
            self.say(said.format(none=_(NONE_OF_THESE), unknown=_("don't know")), wrong=True)

    def written(self) -> Draft:
        """Return what is ticked."""
        return dict.fromkeys(self._ticked, "x")

    def write(self, draft: Draft) -> None:
        """Tick rows."""
        self._ticked = set(draft)
        rows = self.query_one(NumberedList)
        for place in range(len(self._ids)):
            rows.set_row(place, self._row(place))

    def _row(self, place: int) -> Content:
        choice = self.asked.question.choices[place]
        return Content(f"{'[x]' if choice.id in self._ticked else '[ ]'} {choice.label}")

    def _start(self, answer: object) -> int | None:
        if self.asked.question.id in self.asked.case.not_known:
            return len(self._ids) + 2
        return None if answer is None else 0 if answer else len(self._ids)
