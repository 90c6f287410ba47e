"""`diagnose plants`, `diagnose standout` and `diagnose journal show`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.bookkeeping import rows_of
from diagnose.collection import choose
from diagnose.collection.standout import standout
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.journal import plants as kept
from diagnose.journal.cases import cases_of, outcomes
from diagnose.journal.counts import counts_of
from diagnose.journal.rankings import rankings_of
from diagnose.report.collection_json import document
from diagnose.report.collection_text import overview_text, standout_text
from diagnose.report.words import percent

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
        plant = kept.find_plant(book, name)
        rows, _ = rows_of(book, today())
        told = [
            plant.name,
            *(
                f"{label}: {value}"
                for label, value in (
                    ("kind", plant.kind),
                    ("profile", plant.profile),
                    ("place", plant.place),
                    ("pot", f"{plant.pot_cm:g} cm wide" if plant.pot_cm else ""),
                    ("medium", plant.medium),
                    ("note", plant.note),
                    ("gone since", plant.gone_on),
                )
                if value
            ),
        ]
        told += ["", overview_text(row for row in rows if row.plant.id == plant.id)]
        counts = counts_of(book, plant.id)[-_COUNTS_SHOWN:]
        told += ["", "Last counts (leaves, new, lost):"] if counts else []
        told += [
            f"  {c.date}  {c.present:>4} {_or_blank(c.new):>4} {_or_blank(c.lost):>4}  {c.lost_which or ''}".rstrip()
            for c in counts
        ]
        events = kept.events(book, plant.id)
        told += ["", "Events:"] if events else []
        told += [f"  {e.date}  {e.kind.replace('_', ' ')}  {e.note}".rstrip() for e in events]
        photos = kept.photos(book, plant.id)
        told += ["", "Photos:"] if photos else []
        told += [f"  {p.date}  {p.path}  {p.note}".rstrip() for p in photos]
        ends = outcomes(book)
        for case in cases_of(book, plant.id):
            told += ["", f"Case of {case.opened_on}:"]
            told += [
                f"  {r.date}  {r.causes[0].id} {percent(r.causes[0].probability)}"
                for r in rankings_of(book, case.id)
            ]
            end = ends.get(case.id)
            told += [f"  {end.date}  settled: {end.cause}  {end.how}".rstrip() if end else "  not settled"]
    data("\n".join(told))
    return Exit.DONE


def _or_blank(number: int | None) -> str:
    return "" if number is None else str(number)
