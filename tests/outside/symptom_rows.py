"""Rows of published symptom tables as cases: only what the row states is answered, everything else is unknown."""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

import tomli

from diagnose.case import Case, Plant
from diagnose.diagnosis import Diagnostician
from diagnose.ranking import Ranking

TABLES = Path(__file__).parent / "symptom_tables"
DAY = dt.date(2026, 4, 15)  # no place is told, so the date says nothing of the season


@dataclass(frozen=True)
class Row:
    """One row: its sheet, what it observes, the causes it names in its order, and the case it makes."""

    id: str
    sheet: str
    observation: str
    causes: tuple[str, ...]
    case: Case


def rows() -> list[Row]:
    """Return every transcribed row."""
    return [
        Row(f"{path.stem}::{row['id']}", table["sheet"], row["observation"], tuple(row["causes"]), _case(row))
        for path in sorted(TABLES.glob("*.toml"))
        for table in [tomli.loads(path.read_text(encoding="utf-8"))]
        for row in table["row"]
    ]


def _case(row) -> Case:
    """A key that ends in `_days` tells a date by the days before the case's."""
    answers = {
        name.removesuffix("_days") if name.startswith("days_since") and name.endswith("_days") else name: (
            DAY - dt.timedelta(days=value) if name.startswith("days_since") and name.endswith("_days") else value
        )
        for name, value in row["answers"].items()
    }
    return Case(date=DAY, plant=Plant(profile=row.get("profile")), answers=answers)


def rank_of(ranking: Ranking, row: Row) -> int:
    """Return the rank our ranking gives the row's first cause."""
    return ranking.of(row.causes[0]).rank


def ranked(diagnostician: Diagnostician) -> list[tuple[Row, Ranking]]:
    """Return every row with the ranking it gets."""
    return [(row, diagnostician.diagnose(row.case).ranking) for row in rows()]
