"""The kind of plant: a few letters narrow the list."""

from collections.abc import Iterable

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from diagnose.language import _
from diagnose.rulebase.model import PlantProfile
from diagnose.screens.inputs.field import AnswerField
from diagnose.screens.inputs.rows import NOT_KNOWN
from diagnose.screens.rows import Rows


class PlantField(AnswerField):
    """A field that searches, and the kinds of plant that fit."""

    DEFAULT_CSS = """
    PlantField Input { width: 50; }
    PlantField OptionList { height: auto; max-height: 9; }
    """

    def compose(self) -> ComposeResult:
        """Lay the field and the list out."""
        yield Input(placeholder=_("type a few letters, such as alo"), max_length=60, id="answer")
        yield Rows(id="plants")
        yield self.echo()

    def on_mount(self) -> None:
        """List all kinds."""
        self._list("")

    def on_input_changed(self, event: Input.Changed) -> None:
        """List the kinds that fit what was typed."""
        event.stop()
        self._list(event.value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the row that is chosen."""
        event.stop()
        self.query_one(OptionList).action_select()

    def on_key(self, event: events.Key) -> None:
        """Arrows move in the list while the field keeps the cursor."""
        if self.query_one(Input).has_focus and event.key in ("up", "down"):
            event.stop()
            move = {"up": OptionList.action_cursor_up, "down": OptionList.action_cursor_down}[event.key]
            move(self.query_one(OptionList))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Give the kind that was chosen."""
        event.stop()
        if event.option_id == NOT_KNOWN:
            self.do_not_know()
            return
        plant = self.asked.case.plant.model_copy(update={"profile": event.option_id})
        self.give(plant, record=True)

    def _list(self, typed: str) -> None:
        fitting = fitting_plants(self.asked.base.plants.values(), typed)
        rows = [Option(self._row(plant), id=plant.id) for plant in fitting]
        unknown = Option(Content(_("don't know")), id=NOT_KNOWN)
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([*rows, unknown] if typed.strip() else [unknown, *rows])
        chosen = [
            place for place, plant in enumerate(fitting, start=1) if plant.id == self.asked.case.plant.profile
        ]
        if fitting:
            options.highlighted = chosen[0] if chosen and not typed.strip() else 0
        else:
            options.highlighted = None  # Enter on a misspelt kind must not become "don't know"
        if fitting:
            self.say(_("Arrows move in the list; Enter takes the marked row."))
        else:
            self.say(
                _("No kind in the list is called so; the general kind takes nothing for granted."), wrong=True
            )

    def _row(self, plant: PlantProfile) -> Content:
        if plant.id == self.asked.case.plant.profile:
            return Content.assemble(plant.name, ("   " + _("your answer"), "$muted"))
        return Content(plant.name)


def fitting_plants(plants: Iterable[PlantProfile], typed: str) -> list[PlantProfile]:
    """Return the kinds whose name, id or genera hold all words typed; first those where a word begins so."""
    words = typed.lower().split()
    ranked = []
    for plant in plants:
        known = " ".join((plant.name, plant.id, *plant.genera)).lower()
        if all(word in known for word in words):
            begins = all(any(part.strip("(,)").startswith(word) for part in known.split()) for word in words)
            ranked.append((not begins, plant))
    return [plant for _, plant in sorted(ranked, key=lambda one: one[0])]
