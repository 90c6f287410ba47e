"""What screens read of the journal: each call opens it in the thread that asks. Owns no widgets.

A journal that is not there yet is an empty one; looking does not make the file.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from diagnose.bookkeeping import AboutPlant, about_plant, rows_of
from diagnose.collection.overview import Overview
from diagnose.collection.standout import Standout, standout
from diagnose.journal import open_journal
from diagnose.journal.counts import leaves_by_step
from diagnose.journal.plants import events, plant_by_id
from diagnose.problems import Problem
from diagnose.screens.plant_line import STEP_D, STEPS, spark

BUSY_S = 1.0
"""How long what is typed may wait for another program that is writing; the screen stands still meanwhile (common
practice, no source)."""


@dataclass(frozen=True, slots=True)
class Collection:
    """Every plant at a glance, each with the small picture of its leaves by its id."""

    rows: tuple[Overview, ...] = ()
    drawn: Mapping[int, str] = field(default_factory=dict)
    problem: Problem | None = None
    """Why the journal can only be read."""

    @property
    def places(self) -> tuple[str, ...]:
        """The places at which plants stand."""
        return tuple(sorted({row.plant.place for row in self.rows if row.plant.place}))


def read_collection(path: Path, today: dt.date) -> Collection:
    """Return the collection.

    Raises:
        BadInputError: the file is no journal, or too damaged to be read.

    """
    if not path.exists():
        return Collection()
    with open_journal(path) as journal:
        rows, _ = rows_of(journal, today)
        counts = leaves_by_step(journal, today, STEP_D, STEPS)
        drawn = {plant_id: spark(told, today) for plant_id, told in counts.items()}
        return Collection(rows, drawn, journal.problem)


def read_standout(path: Path, rows: tuple[Overview, ...], today: dt.date) -> Standout:
    """Return what stands out among plants that were read.

    Raises:
        BadInputError: the file cannot be read.

    """
    if not path.exists():
        return standout(rows, (), today)
    with open_journal(path) as journal:
        return standout(rows, events(journal), today)


def read_plant(path: Path, plant_id: int, today: dt.date) -> tuple[AboutPlant, str]:
    """Return all that is known of a plant, and the small picture of its leaves.

    Raises:
        BadInputError: the file cannot be read.

    """
    with open_journal(path) as journal:
        about = about_plant(journal, plant_by_id(journal, plant_id), today)
    return about, spark([(count.date, count.present) for count in about.counts], today)
