"""A counting round: plant after plant of a place, each count on disk before the next plant shows."""

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Input, Label

from diagnose.bookkeeping import day_of_counts
from diagnose.case import LeafCount
from diagnose.journal import Journal, open_journal
from diagnose.journal.counts import add_count, last_counts
from diagnose.journal.records import PlantRecord
from diagnose.language import _, marked, ngettext
from diagnose.problems import BadInputError
from diagnose.questionnaire.counted import read_count
from diagnose.questionnaire.typed import TypedError
from diagnose.screens.journal_reads import BUSY_S, Collection
from diagnose.screens.page import Page
from diagnose.screens.plant_line import ago_said

if TYPE_CHECKING:
    from diagnose.screens.app import DiagnoseApp

_HOW = marked("Leaves, new, lost: such as 5 1 0. Enter alone: as last time.")


class CountingScreen(Page[None]):
    """Owns its connection to the journal until it is left."""

    PLACE = "counting"
    CSS = """
    CountingScreen .heading { padding: 0 1; }
    CountingScreen VerticalScroll { padding: 0 1; }
    CountingScreen Label { width: 100%; height: auto; }
    CountingScreen #name { margin-top: 1; text-style: bold; }
    CountingScreen #last { margin-bottom: 1; }
    CountingScreen #saved { margin-top: 1; color: $muted; }
    """
    AUTO_FOCUS: ClassVar[str] = "CountLine"

    def __init__(self, journal: Journal, plants: Sequence[PlantRecord], title: str, day: dt.date) -> None:
        super().__init__()
        self._journal, self._plants, self._title, self._day = journal, tuple(plants), title, day
        self._at = 0
        self._counted: set[int] = set()
        self._last = {plant_id: record.count for plant_id, record in last_counts(journal).items()}

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading(self._title)
        with VerticalScroll(can_focus=False):
            yield Label(markup=False, id="name")
            yield Label(markup=False, id="last")
            yield CountLine(max_length=40)
            yield Label(_(_HOW), markup=False, id="said")
            yield Label(markup=False, id="saved")
        yield self.foot()

    def on_mount(self) -> None:
        """Show the first plant."""
        self._show()

    def on_unmount(self) -> None:
        """Let the journal go."""
        self._journal.close()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Save what was typed, and only then go on."""
        if self._at == len(self._plants):
            self.dismiss()
            return
        plant = self._plants[self._at]
        try:
            count = read_count(event.value, self._last.get(plant.id), self._day)
            add_count(self._journal, plant.id, count)
        except TypedError as error:
            self._say(str(error))
            return
        except BadInputError as error:  # what was typed stays, to be sent again
            self._say(" ".join(problem.sentence() for problem in error.problems))
            return
        self._last[plant.id] = count
        self._counted.add(plant.id)
        saved = _("Saved, {plant}: {count}").format(plant=plant.name, count=_numbers(count))
        self.query_one("#saved", Label).update(saved)
        self._go(1)

    def action_skip(self) -> None:
        """Leave this plant uncounted."""
        if self._at < len(self._plants):
            self._go(1)

    def action_before(self) -> None:
        """Go to the plant before."""
        if self._at > 0:
            self._go(-1)

    def action_back(self) -> None:
        """Leave; what was counted is in the journal."""
        self.dismiss()

    def _go(self, by: int) -> None:
        self._at += by
        self._show()

    def _show(self) -> None:
        total = len(self._plants)
        line = self.query_one(CountLine)
        line.clear()
        if self._at == total:
            self.retitle(self._title, _("done"))
            name = _("That was the last plant.")
            last = _("{count} of {total} counted.").format(count=len(self._counted), total=total)
            self._say(_("Enter goes back."))
        else:
            plant = self._plants[self._at]
            self.retitle(self._title, _("{place} of {total}").format(place=self._at + 1, total=total))
            name, last = plant.name, _last(self._last.get(plant.id), self._day)
            self._say(_(_HOW), fault=False)
        self.query_one("#name", Label).update(name)
        self.query_one("#last", Label).update(last)

    def _say(self, text: str, *, fault: bool = True) -> None:
        said = self.query_one("#said", Label)
        said.update(text)
        said.set_class(fault and self._at < len(self._plants), "problem")
        said.set_class(not said.has_class("problem"), "muted")


class CountLine(Input):
    """Where counts are typed; on an empty line S and B are keys."""

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Leave the keys of the screen alone while nothing is typed."""
        return super().check_consume_key(key, character) and not self._is_for_screen(key)

    def on_key(self, event: events.Key) -> None:
        """Let the keys of the screen through while nothing is typed."""
        if self._is_for_screen(event.key):
            event.prevent_default()

    def _is_for_screen(self, key: str) -> bool:
        return not self.value and key in ("s", "b")


def start_round(desk: "DiagnoseApp", collection: Collection, place: str | None) -> None:
    """Count the plants of a place; ask for the place if none is named and there are several."""
    if not collection.rows:
        desk.notify(_("There are no plants to count yet."), markup=False)
        return

    def start(chosen: str | None) -> None:
        if chosen is not None:
            plants = [row.plant for row in collection.rows if chosen in ("", row.plant.place)]
            start_counting(desk, plants, chosen or _("All plants"))

    known = {row.plant.place for row in collection.rows}
    if place is None and len(known) == 1:
        place = known.pop()
    if place is None:
        from diagnose.screens.choose_place import ChoosePlace  # noqa: PLC0415

        desk.push_screen(ChoosePlace(collection), start)
    else:
        start(place)


def start_counting(desk: "DiagnoseApp", plants: Sequence[PlantRecord], title: str) -> None:
    """Open the journal and count plants; if nothing typed could be kept, say why instead."""
    try:
        screen = _counting_screen(open_journal(desk.journal, busy_s=BUSY_S), plants, title, desk.today())
    except BadInputError as error:
        desk.tell(error.problems, rest=False)
    else:
        desk.push_screen(screen, lambda _nothing: desk.written.publish(None))


def _counting_screen(
    journal: Journal, plants: Sequence[PlantRecord], title: str, today: dt.date
) -> CountingScreen:
    """Return the screen, which then owns the journal."""
    if journal.problem:
        journal.close()
        raise BadInputError([journal.problem])
    try:
        return CountingScreen(journal, plants, title, day_of_counts(journal, today))
    except BaseException:
        journal.close()
        raise


def _last(count: LeafCount | None, day: dt.date) -> str:
    if count is None:
        return _("not counted yet")
    return _("last: {count}, {ago}").format(count=_numbers(count), ago=ago_said((day - count.date).days))


def _numbers(count: LeafCount) -> str:
    parts = [ngettext("{count} leaf", "{count} leaves", count.present).format(count=count.present)]
    if count.new:
        parts.append(_("{count} new").format(count=count.new))
    if count.lost:
        parts.append(_("{count} lost").format(count=count.lost))
    return ", ".join(parts)
