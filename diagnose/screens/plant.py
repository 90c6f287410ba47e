"""One plant: its counts, events, cases and what they turned out to be; from here to a case, a count, an outcome."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from diagnose.bookkeeping import AboutPlant
from diagnose.collection.overview import Overview
from diagnose.journal import cases, open_journal
from diagnose.journal.records import CaseRecord
from diagnose.language import _, ngettext, numeral
from diagnose.problems import BadInputError
from diagnose.report.plant_text import plant_sections
from diagnose.rulebase.model import Cause
from diagnose.screens.journal_reads import BUSY_S, read_plant
from diagnose.screens.page import Page
from diagnose.screens.plant_line import ago_said, due_said, losses, trend

COUNTS_SHOWN = 8


class PlantScreen(Page[None]):
    """All that the journal knows of a plant, on one page that scrolls."""

    PLACE = "plant"
    CSS = """
    PlantScreen VerticalScroll { padding: 1 2; }
    PlantScreen Horizontal { height: auto; }
    PlantScreen Static { width: 1fr; }
    PlantScreen #now { padding-right: 3; }
    PlantScreen.-narrow Horizontal { layout: vertical; }
    PlantScreen.-narrow Static { width: 100%; padding: 0; }
    PlantScreen.-narrow #past { margin-top: 1; }
    """
    AUTO_FOCUS: ClassVar[str] = "VerticalScroll"

    class Read(Message):
        """The journal was read."""

        def __init__(self, about: AboutPlant, drawn: str) -> None:
            super().__init__()
            self.about, self.drawn = about, drawn

    def __init__(self, plant_id: int) -> None:
        super().__init__()
        self._plant_id = plant_id
        self.about: AboutPlant | None = None

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading("", _("reading the journal …"))
        with VerticalScroll(), Horizontal():
            yield Static(markup=False, id="now")
            yield Static(markup=False, id="past")
        yield self.foot()

    def on_mount(self) -> None:
        """Read again whenever something was written."""
        self.desk.written.subscribe(self, lambda _nothing: self._begin())
        self._begin()

    def on_plant_screen_read(self, message: Read) -> None:
        """Show the plant."""
        self.about = about = message.about
        self.retitle(about.plant.name, about.plant.place)
        names = {cause.id: cause.name for cause in self._causes().values()}
        sections = plant_sections(self._profile_named(about), names, COUNTS_SHOWN)
        glance = _glance(about.row, message.drawn) if about.row else ()
        self.query_one("#now", Static).update(_said([("", glance), *sections[:2]]))
        self.query_one("#past", Static).update(_said(sections[2:]))

    def action_new_case(self) -> None:
        """Begin a case of the plant, or go on with the one that is open."""
        self.notify(_("The case opens in a moment …"), markup=False, timeout=2)
        self.desk.open_plant_case(self._plant_id)

    def action_count(self) -> None:
        """Count this plant."""
        from diagnose.screens.counting import start_counting  # noqa: PLC0415

        if self.about:
            start_counting(self.desk, (self.about.plant,), self.about.plant.name)

    def action_settle(self) -> None:
        """Say what the last case turned out to be."""
        if self.about is None:
            return
        if not self.about.cases:
            self.notify(_("There is no case of this plant yet; N begins one."), markup=False)
            return
        story = self.about.cases[-1]
        said = {one.id: one.probability for one in story.rankings[-1].causes} if story.rankings else {}
        ordered = sorted(self._causes().values(), key=lambda cause: -said.get(cause.id, 0.0))
        from diagnose.screens.settle import SettleScreen  # noqa: PLC0415

        window = SettleScreen(
            self.about.plant.name, [(one.id, one.name, said.get(one.id)) for one in ordered]
        )
        self.app.push_screen(window, partial(self._settle, story.record))

    def _settle(self, record: CaseRecord, told: tuple[str, str] | None) -> None:
        if told is None:
            return
        try:
            with open_journal(self.desk.journal, busy_s=BUSY_S) as journal:
                cases.settle(journal, record, self.desk.today(), *told)
        except BadInputError as error:
            self.desk.tell(error.problems, rest=False)
            return
        self.desk.written.publish(None)

    def _begin(self) -> None:
        self.run_worker(self._read, thread=True, exclusive=True, group="read")

    def _read(self) -> None:
        worker = get_current_worker()
        self.desk.loader.get()  # for the names of causes
        try:
            about, drawn = read_plant(self.desk.journal, self._plant_id, self.desk.today())
        except BadInputError as error:
            self.app.call_from_thread(self.desk.tell, error.problems, rest=False)
            return
        if not worker.is_cancelled:
            self.post_message(self.Read(about, drawn))

    def _profile_named(self, about: AboutPlant) -> AboutPlant:
        """Return the same with the plant's profile by its name."""
        loaded = self.desk.loader.loaded
        profile = loaded.base.plants.get(about.plant.profile or "") if loaded else None
        return replace(about, plant=replace(about.plant, profile=profile.name)) if profile else about

    def _causes(self) -> Mapping[str, Cause]:
        loaded = self.desk.loader.loaded
        return loaded.base.causes if loaded else {}


def _said(sections: Sequence[tuple[str, Sequence[str]]]) -> Content:
    parts = []
    for title, lines in sections:
        head = [Content.styled(title.rstrip(":"), "bold")] if title else []
        parts.append(
            Content("\n").join([*head, *(Content(f"  {line}" if title else line) for line in lines)])
        )
    return Content("\n\n").join(parts)


def _glance(row: Overview, drawn: str) -> list[str]:
    """Say how the plant is in a few lines."""
    if row.days_since_count is None:
        return [_("Not counted yet; C counts it.")]
    leaves = ngettext("{count} leaf, counted {ago}", "{count} leaves, counted {ago}", row.leaves or 0)
    said = [leaves.format(count=row.leaves, ago=ago_said(row.days_since_count)), _moved(row)]
    lines = [f"{drawn}  {', '.join(one for one in said if one)}"]
    if row.lost_per_30d is not None and row.lost_per_30d_before is not None:
        text = _("Losses against its own past: {losses} ({now} in 30 days, {before} before)")
        rates = {"now": numeral(row.lost_per_30d, ".1f"), "before": numeral(row.lost_per_30d_before, ".1f")}
        lines.append(text.format(losses=losses(row), **rates))
    else:
        lines.append(_("Losses against its own past: {losses}").format(losses=losses(row)))
    if row.due:
        lines.append(_("Due: {what}").format(what=due_said(row)))
    return lines


def _moved(row: Overview) -> str:
    """Say whether there are more leaves than before, or fewer; nothing where that cannot be said."""
    if not row.change:
        return trend(row)
    rising = ngettext("rising by {count} in {days} day", "rising by {count} in {days} days", row.change_days)
    falling = ngettext(
        "falling by {count} in {days} day", "falling by {count} in {days} days", row.change_days
    )
    return (rising if row.change > 0 else falling).format(count=abs(row.change), days=row.change_days)
