"""Rows of published symptom tables as cases: only what the row states is answered, everything else is unknown.

Where a sheet lists several causes of one sign, a row a cause tells the sign and that cause's own circumstance.
`symptom_tables/` are the sheets the rules were written and mended by; `symptom_tables_held_out/` are sheets that no
rule was changed by.
"""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

import tomli

from diagnose.case import Case, Plant
from diagnose.diagnosis import Diagnostician
from diagnose.ranking import Ranking

WORKED_BY = Path(__file__).parent / "symptom_tables"
HELD_OUT = Path(__file__).parent / "symptom_tables_held_out"
DAY = dt.date(2026, 4, 15)  # no place is told, so the date says nothing of the season


@dataclass(frozen=True)
class Row:
    """One row: its sheet, what it observes, the causes it names in its order, and the case it makes."""

    id: str
    sheet: str
    observation: str
    causes: tuple[str, ...]
    case: Case


def rows(folder: Path = WORKED_BY) -> list[Row]:
    """Return every transcribed row of a folder."""
    return [
        Row(f"{path.stem}::{row['id']}", table["sheet"], row["observation"], tuple(row["causes"]), _case(row))
        for path in sorted(folder.glob("*.toml"))
        for table in [tomli.loads(path.read_text(encoding="utf-8"))]
        for row in table["row"]
    ]


def _case(row) -> Case:
    """A key that ends in `_days` tells a date by the days before the case's."""
    answers = {
        name.removesuffix("_days") if name.startswith("days_since") and name.endswith("_days") else name: (
            DAY - dt.timedelta(days=value)
            if name.startswith("days_since") and name.endswith("_days")
            else value
        )
        for name, value in row["answers"].items()
    }
    return Case(date=DAY, plant=Plant(profile=row.get("profile")), answers=answers)


def rank_of(ranking: Ranking, row: Row) -> int:
    """Return the rank our ranking gives the row's first cause."""
    return ranking.of(row.causes[0]).rank


def ranked(diagnostician: Diagnostician, folder: Path = WORKED_BY) -> list[tuple[Row, Ranking]]:
    """Return every row of a folder with the ranking it gets."""
    return [(row, diagnostician.diagnose(row.case).ranking) for row in rows(folder)]
