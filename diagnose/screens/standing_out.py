"""What stands out in the collection: plants whose losses rose beyond chance, and what those plants share."""

import datetime as dt
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.message import Message
from textual.widgets import Label, Static

from diagnose.collection.standout import Standout
from diagnose.language import _, ngettext, numeral
from diagnose.problems import BadInputError
from diagnose.report.collection_text import shared_said, standout_head
from diagnose.screens.journal_reads import Collection, read_standout
from diagnose.screens.page import Page
from diagnose.screens.plant_table import PlantTable


class StandingOutScreen(Page[None]):
    """Plants named, surest first, with false discoveries kept few; below, what they have in common."""

    PLACE = "standing_out"
    CSS = """
    StandingOutScreen #said { padding: 1 2; width: 100%; height: auto; max-height: 6; }
    StandingOutScreen PlantTable { height: 1fr; }
    StandingOutScreen #shared { height: auto; max-height: 40%; padding: 0 2; border-top: solid $line; }
    StandingOutScreen #shared Static { margin-bottom: 1; }
    StandingOutScreen .part { text-style: bold; }
    """
    AUTO_FOCUS: ClassVar[str] = "#plants"

    class Found(Message):
        """The plants were compared."""

        def __init__(self, found: Standout) -> None:
            super().__init__()
            self.found = found

    def __init__(self, collection: Collection) -> None:
        super().__init__()
        self._collection = collection

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading(_("What stands out"), _("comparing …"))
        yield Label(markup=False, id="said")
        yield PlantTable(id="plants")
        yield VerticalScroll(id="shared")
        yield self.foot()

    def on_mount(self) -> None:
        """Compare in the background."""
        work = partial(self._find, self.desk.today())
        self.run_worker(work, thread=True, exclusive=True, group="find")

    def _find(self, today: dt.date) -> None:
        try:
            found = read_standout(self.desk.journal, self._collection.rows, today)
        except BadInputError as error:
            self.app.call_from_thread(self.desk.tell, error.problems, rest=False)
            return
        self.post_message(self.Found(found))

    async def on_standing_out_screen_found(self, message: Found) -> None:
        """Show them."""
        found = message.found
        count = len(found.tested)
        tested = ngettext("{count} plant tested", "{count} plants tested", count)
        self.retitle(_("What stands out"), tested.format(count=numeral(count, ",")))
        self.query_one("#said", Label).update(standout_head(found))
        table = self.query_one(PlantTable)
        table.show([one.row for one in found.rising], self._collection.drawn)
        shared = self.query_one("#shared", VerticalScroll)
        title = (
            _("What plants share that lose more than before")
            if found.shared
            else _("They share nothing beyond chance.")
        )
        await shared.mount(Static(title, markup=False, classes="part"))
        await shared.mount_all(Static(shared_said(one), markup=False) for one in found.shared)
        shared.display = table.display = bool(found.rising or found.shared)

    def on_plant_table_chosen(self, message: PlantTable.Chosen) -> None:
        """Open the plant."""
        from diagnose.screens.plant import PlantScreen  # noqa: PLC0415

        self.app.push_screen(PlantScreen(message.plant_id))
