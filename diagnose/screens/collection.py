"""The collection: all plants at a glance, to sort, filter and search; from here to a plant or a counting round."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Input, Label, Select
from textual.worker import get_current_worker

from diagnose.collection import choose
from diagnose.language import _, marked, ngettext, numeral
from diagnose.problems import BadInputError, Problem
from diagnose.screens.journal_reads import Collection, read_collection
from diagnose.screens.page import Page
from diagnose.screens.plant_table import PlantTable

ORDERS = {
    "place": marked("by place"),
    "name": marked("by name"),
    "due": marked("what is due first"),
    "ratio": marked("losses risen most first"),
    "change": marked("most leaves gone first"),
    "counted": marked("longest uncounted first"),
}
"""Orders that can be chosen: a field of `diagnose.collection.choose` -> how the order is called."""
_EMPTY = marked(
    "The journal has no plants yet. A adds one. 'diagnose import FILE.csv' takes in leaf counts from a table."
)


class CollectionScreen(Page[None]):
    """Search, place and order above; below, a line a plant."""

    PLACE = "collection"
    CSS = """
    CollectionScreen #filters { height: 3; padding: 0 2; }
    CollectionScreen #filters Input { width: 1fr; }
    CollectionScreen #filters Select { width: 30; margin: 1 0 0 2; }
    CollectionScreen #filters SelectCurrent {
        background: $background; background-tint: transparent; padding: 0 1;
    }
    CollectionScreen #filters Select:focus SelectCurrent { background: $selected; text-style: bold; }
    CollectionScreen #filters SelectOverlay { border: round $line; background: $background; width: 40; }
    CollectionScreen.-narrow #filters { height: 4; layout: grid; grid-size: 2; grid-rows: 3 1; }
    CollectionScreen.-narrow #filters Input { column-span: 2; width: 100%; }
    CollectionScreen.-narrow #filters Select { width: 100%; margin: 0; }
    CollectionScreen #remark { padding: 0 2; width: 100%; height: auto; color: $muted; display: none; }
    CollectionScreen #remark.problem { color: $against; }
    CollectionScreen PlantTable { height: 1fr; }
    """
    AUTO_FOCUS: ClassVar[str] = "#plants"

    class Read(Message):
        """The journal was read."""

        def __init__(self, collection: Collection) -> None:
            super().__init__()
            self.collection = collection

    class Failed(Message):
        """The journal could not be read."""

        def __init__(self, problems: Sequence[Problem]) -> None:
            super().__init__()
            self.problems = problems

    def __init__(self) -> None:
        super().__init__()
        self.collection = Collection()
        self._stand_at: int | None = None

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading(_("Your plants"), _("reading the journal …"))
        with Horizontal(id="filters"):
            hint = _("search name, kind, place, medium, note")
            yield Input(placeholder=hint, id="search", max_length=80)
            yield Select([], prompt=_("every place"), id="place", compact=True)
            orders = [(_(said), field) for field, said in ORDERS.items()]
            yield Select(orders, value="place", allow_blank=False, id="order", compact=True)
        yield Label(markup=False, id="remark")
        yield PlantTable(id="plants")
        yield self.foot()

    def on_mount(self) -> None:
        """Read again whenever something was written."""
        self.desk.written.subscribe(self, lambda _nothing: self._begin())
        self._begin()

    def on_collection_screen_read(self, message: Read) -> None:
        """Show the plants."""
        self.collection = message.collection
        places: Select[str] = self.query_one("#place", Select)
        chosen = places.selection
        with self.prevent(Select.Changed):
            places.set_options([(place, place) for place in self.collection.places])
            if chosen in self.collection.places:
                places.value = chosen
        problem = self.collection.problem
        empty = "" if self.collection.rows else _(_EMPTY)
        self._remark(problem.sentence() if problem else empty, problem=bool(problem))
        self._list()
        if self._stand_at is not None:
            self.query_one(PlantTable).stand_at(self._stand_at)
            self._stand_at = None

    def on_collection_screen_failed(self, message: Failed) -> None:
        """Say why there is nothing to see."""
        self.retitle(_("Your plants"), "")
        self._remark(" ".join(problem.sentence() for problem in message.problems), problem=True)

    def on_input_changed(self) -> None:
        """Search as it is typed."""
        self._list(stay=False)

    def on_input_submitted(self) -> None:
        """Go on to what was found."""
        self.query_one(PlantTable).focus()

    def on_select_changed(self) -> None:
        """Filter or sort."""
        self._list(stay=False)

    def on_plant_table_chosen(self, message: PlantTable.Chosen) -> None:
        """Open the plant."""
        from diagnose.screens.plant import PlantScreen  # noqa: PLC0415

        self.app.push_screen(PlantScreen(message.plant_id))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Letters are keys only while no text is typed."""
        del parameters
        own = ("search", "place", "order", "count", "stands_out", "add_plant")
        return not (isinstance(self.focused, Input) and action in own)

    def on_descendant_focus(self) -> None:
        """Keep the line of keys true."""
        self.refresh_bindings()

    def action_search(self) -> None:
        """Type a few letters to search."""
        self.query_one("#search").focus()

    def action_place(self) -> None:
        """Choose a place."""
        places = self.query_one("#place", Select)
        places.focus()
        places.action_show_overlay()

    def action_order(self) -> None:
        """Take the next order."""
        order: Select[str] = self.query_one("#order", Select)
        fields = list(ORDERS)
        order.value = fields[(fields.index(str(order.value)) + 1) % len(fields)]

    def action_count(self) -> None:
        """Count the plants of a place; of the place chosen here, if one is."""
        from diagnose.screens.counting import start_round  # noqa: PLC0415

        start_round(self.desk, self.collection, self.query_one("#place", Select).selection)

    def action_stands_out(self) -> None:
        """See whose losses rose beyond chance."""
        from diagnose.screens.standing_out import StandingOutScreen  # noqa: PLC0415

        self.app.push_screen(StandingOutScreen(self.collection))

    def action_add_plant(self) -> None:
        """Add a plant, at the place chosen here if one is."""
        from diagnose.screens.add_plant import AddPlantScreen  # noqa: PLC0415

        loaded = self.desk.loader.loaded
        profiles = loaded.base.plants.values() if loaded else ()
        kinds = {row.plant.kind for row in self.collection.rows if row.plant.kind}
        kinds |= {genus for profile in profiles for genus in profile.genera}
        place = self.query_one("#place", Select).selection or ""
        self.app.push_screen(AddPlantScreen(kinds, self.collection.places, place), self._added)

    def _added(self, plant_id: int | None) -> None:
        if plant_id is not None:
            self._stand_at = plant_id
            self.query_one("#search", Input).clear()
            self.desk.written.publish(None)

    def action_back(self) -> None:
        """From the search to the plants; from the plants back."""
        if isinstance(self.focused, Input | Select):
            self.query_one(PlantTable).focus()
        else:
            self.dismiss()

    def _begin(self) -> None:
        work = partial(self._read, self.desk.journal)
        self.run_worker(work, thread=True, exclusive=True, group="read")

    def _read(self, path: Path) -> None:
        worker = get_current_worker()
        try:
            found: Message = self.Read(read_collection(path, self.desk.today()))
        except BadInputError as error:
            found = self.Failed(error.problems)
        if not worker.is_cancelled:
            self.post_message(found)

    def _list(self, *, stay: bool = True) -> None:
        place = self.query_one("#place", Select).selection
        rows = choose.find(self.collection.rows, self.query_one("#search", Input).value)
        rows = tuple(row for row in rows if place in (None, row.plant.place))
        rows = choose.sort(rows, str(self.query_one("#order", Select).value))
        self.query_one(PlantTable).show(rows, self.collection.drawn, stay=stay)
        leaves, due = sum(row.leaves or 0 for row in rows), sum(bool(row.due) for row in rows)
        counted = (
            plants_said(len(rows)),
            ngettext("{count} leaf", "{count} leaves", leaves).format(count=numeral(leaves, ",")),
            _("{count} due").format(count=numeral(due, ",")),
        )
        self.retitle(_("Your plants"), ", ".join(counted))

    def _remark(self, text: str, *, problem: bool) -> None:
        remark = self.query_one("#remark", Label)
        remark.update(text)
        remark.set_class(problem, "problem")
        remark.display = bool(text)


def plants_said(count: int) -> str:
    """Return how many plants there are."""
    return ngettext("{count} plant", "{count} plants", count).format(count=numeral(count, ","))
