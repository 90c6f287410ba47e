"""The plant's town: looked up in the background, shown back with where it was found."""

import unicodedata

from textual.app import ComposeResult
from textual.message import Message
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from diagnose.case import Place
from diagnose.language import _
from diagnose.questionnaire import TypedError
from diagnose.questionnaire.records import known_place
from diagnose.questionnaire.said import place_said
from diagnose.screens.inputs.field import AnswerField


class PlaceField(AnswerField):
    """One field for a town or coordinates."""

    DEFAULT_CSS = """
    PlaceField Input { width: 50; }
    PlaceField #hint { padding: 0 1; color: $muted; }
    """

    class Found(Message):
        """A typed place was looked up: the place, or what is wrong with it."""

        def __init__(self, text: str, place: Place | None, said: str, *, taken: bool) -> None:
            super().__init__()
            self.text, self.place, self.said, self.taken = text, place, said, taken

    def compose(self) -> ComposeResult:
        """Lay the field out."""
        self._confirming = ""
        yield Input(
            _earlier(self.asked.case.place),
            placeholder=_("such as Dundee"),
            max_length=80,
            select_on_focus=True,
            id="answer",
        )
        yield self.echo()
        hint = _(
            "A town, with the country's two letters if need be (Perth, AU); or latitude and longitude (52.1 -1.4). "
            "Enter takes it; leave it empty if you don't know."
        )
        yield Static(hint, markup=False, id="hint")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Look up what was typed so far."""
        event.stop()
        if len(event.value.strip()) > 2:
            self._look_up(event.value, taken=False)
        else:
            self.say("")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Look up what was typed, and take it if it is found."""
        event.stop()
        if not event.value.strip():
            self.do_not_know()
            return
        self.say(_("looking it up …"))
        self._look_up(event.value, taken=True)

    def on_place_field_found(self, message: Found) -> None:
        """Show or take what was found, if it is still what stands in the field."""
        message.stop()
        if message.text != self.query_one(Input).value:
            return
        if message.place is None:
            self.say(message.said if message.taken else "", wrong=True)
            return
        found = message.said or place_said(message.place)
        if not _begins(found, message.text) and message.place.city and self._confirming != message.text:
            if message.taken:  # it is another name of that town: a few letters may be the code of its airport
                self._confirming = message.text
                self.say(_("Do you mean {town}? Enter again takes it.").format(town=found), wrong=True)
            else:
                self.say("")
            return
        self.say(_("that is {answer}").format(answer=found))
        if message.taken:
            earlier = self.asked.case.place
            kept = {"label": earlier.label} if earlier.label else {}
            self.give(message.place.model_copy(update=kept), record=True)

    def _look_up(self, text: str, *, taken: bool) -> None:
        def look() -> None:
            worker = get_current_worker()
            try:
                place, said = known_place(text)
                found = self.Found(text, place, said, taken=taken)
            except TypedError as error:
                found = self.Found(text, None, str(error), taken=taken)
            if not worker.is_cancelled:
                self.post_message(found)

        self.run_worker(look, thread=True, exclusive=True, group="place")


def _earlier(place: Place) -> str:
    if place.city:
        return f"{place.city}, {place.country}" if place.country else place.city
    if place.latitude is None:
        return ""
    return f"{place.latitude:g} {place.longitude:g}" if place.longitude is not None else f"{place.latitude:g}"


def _begins(found: str, typed: str) -> bool:
    """Whether the name of the town that was found begins as typed, accents and case apart."""
    return _plain(found).startswith(_plain(typed.partition(",")[0]))


def _plain(text: str) -> str:
    letters = unicodedata.normalize("NFKD", text.strip().casefold().replace("-", " "))
    return "".join(letter for letter in letters if not unicodedata.combining(letter))
