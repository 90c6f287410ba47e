"""`diagnose plants`, `diagnose standout` and `diagnose journal show`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.bookkeeping import about_plant, rows_of
from diagnose.collection import choose
from diagnose.collection.standout import standout
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.journal import plants as kept
from diagnose.report.collection_json import document
from diagnose.report.collection_text import overview_text, standout_text
from diagnose.report.plant_text import plant_sections

_COUNTS_SHOWN = 8


def plants(journal: Path | None, *, sort: str, where: Sequence[str], find: str, as_json: bool) -> int:
    """Print the collection at a glance."""
    with opened(journal) as book:
        rows, _ = rows_of(book, today())
    chosen = choose.sort(choose.where(choose.find(rows, find), where), sort)
    data(document("plants", chosen) if as_json else overview_text(chosen))
    return Exit.DONE


def stand_out(journal: Path | None, *, as_json: bool) -> int:
    """Print whose losses rose beyond chance, and what those plants share."""
    day = today()
    with opened(journal) as book:
        rows, _ = rows_of(book, day)
        found = standout(rows, kept.events(book), day)
    data(document("standout", found) if as_json else standout_text(found))
    return Exit.DONE


def show(journal: Path | None, name: str) -> int:
    """Print all that is known of one plant."""
    with opened(journal) as book:
        about = about_plant(book, kept.find_plant(book, name), today())
    sections = plant_sections(about, _cause_names() if about.cases else {}, _COUNTS_SHOWN)
    told = [about.plant.name, *(line for title, lines in sections if not title for line in lines)]
    told += ["", overview_text([about.row] if about.row else [])]
    for title, lines in sections:
        if title:
            told += ["", title, *(f"  {line}" for line in lines)]
    data("\n".join(told))
    return Exit.DONE


def _cause_names() -> dict[str, str]:
    from diagnose.diagnosis import read_rules

    return {cause.id: cause.name for cause in read_rules(()).causes.values()}
