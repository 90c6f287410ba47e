"""A number or a date, typed freely and shown back as it is understood."""

import datetime as dt

from textual.app import ComposeResult
from textual.widgets import Input, Static

from diagnose.language import _, numeral
from diagnose.questionnaire import TypedError, read_typed
from diagnose.questionnaire.said import date_said, number_said
from diagnose.questionnaire.units import shown_unit, to_shown
from diagnose.screens.inputs.field import AnswerField


class TypedField(AnswerField):
    """One field; an empty one and Enter means "don't know"."""

    DEFAULT_CSS = """
    TypedField Input { width: 40; }
    TypedField #hint { padding: 0 1; color: $muted; }
    """

    def compose(self) -> ComposeResult:
        """Lay the field out."""
        yield Input(self._earlier(), max_length=60, select_on_focus=True, id="answer")
        yield self.echo()
        yield Static(self._hint(), markup=False, id="hint")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what would be understood; say nothing of a text that is still being typed."""
        event.stop()
        try:
            self.say(self._understood(event.value))
        except TypedError:
            self.say("")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Give the answer, or say what would be one."""
        event.stop()
        if not event.value.strip():
            self.do_not_know()
            return
        try:
            self.give(self._read(event.value))
        except TypedError as error:
            self.say(str(error), wrong=True)

    def _read(self, text: str) -> float | dt.date:
        asked = self.asked
        value = read_typed(asked.question, text, asked.case.date, asked.system, south=asked.south)
        if isinstance(value, dt.date):
            return value
        return float(value)  # type: ignore[arg-type]  # these two kinds give nothing else

    def _understood(self, text: str) -> str:
        if not text.strip():
            return ""
        value = self._read(text)
        if isinstance(value, dt.date):
            said = date_said(value, self.asked.case.date)
        else:
            said = number_said(value, self.asked.question.unit, self.asked.system)
        return _("that is {answer}").format(answer=said)

    def _earlier(self) -> str:
        question, case = self.asked.question, self.asked.case
        value = case.answers.get(question.id)
        if value is None and question.event:
            value = case.latest(question.event)
        if isinstance(value, dt.date):
            return value.isoformat()
        if isinstance(value, bool) or not isinstance(value, int | float):
            return str(value or "")
        return numeral(to_shown(value, question.unit, self.asked.system), ".6g")

    def _hint(self) -> str:
        question, system = self.asked.question, self.asked.system
        if question.kind == "date":
            return _(
                "A date, such as 3 weeks ago, early May, last spring or 2026-03-04. Enter takes it; "
                "leave it empty if you don't know."
            )
        least, most = (
            numeral(to_shown(bound or 0.0, question.unit, system), "g")
            for bound in (question.least, question.most)
        )
        unit = shown_unit(question.unit, system)
        return _(
            "A number from {least} to {most} {unit}. Enter takes it; leave it empty if you don't know."
        ).format(least=least, most=most, unit=_("days") if unit == "d" else unit)
