"""Open the journal for a command, and say what is wrong with it once."""

import datetime as dt
from pathlib import Path

from diagnose import locations
from diagnose.collection.followup import Due, due
from diagnose.collection.overview import Overview, overview
from diagnose.command.output import complain, talk
from diagnose.journal import Journal, open_journal
from diagnose.journal.cases import all_cases
from diagnose.journal.counts import latest_date, leaf_totals
from diagnose.journal.plans import all_plans
from diagnose.journal.plants import all_plants
from diagnose.problems import BadInputError, Problem


def opened(path: Path | None) -> Journal:
    """Return the journal in use; if it can only be read that is told, and only writing will fail."""
    file = path or locations.journal()
    if not file.exists():
        talk(f"A new journal is begun: {file}.")
    journal = open_journal(file)
    if journal.problem:
        complain([journal.problem])
    return journal


def today() -> dt.date:
    """Return the grower's own calendar day."""
    return dt.date.today()  # noqa: DTZ011


def day_of_counts(journal: Journal, told: dt.date | None) -> dt.date:
    """Return the day that counts are put to: the one told, else today.

    Raises:
        BadInputError: the day told lies ahead, or the clock stands before the latest count, so one of them is wrong.

    """
    now, latest = today(), latest_date(journal)
    if told is not None and told > now:
        raise BadInputError(
            [Problem(None, None, "--date", told.isoformat(), f"a day not after today, {now}")]
        )
    if told is None and latest is not None and latest > now:
        raise BadInputError(
            [
                Problem(
                    str(journal.path),
                    None,
                    "",
                    f"a count of {latest} while this computer's clock says {now}",
                    "a clock not behind the latest count",
                    f"set the clock, or give the day with --date, such as --date {now}",
                )
            ]
        )
    return told or now


def rows_of(journal: Journal, day: dt.date) -> tuple[tuple[Overview, ...], tuple[Due, ...]]:
    """Return every plant at a glance, and the plans that ask to look again."""
    plants, cases = all_plants(journal), all_cases(journal, settled=False)
    waiting = due(plants, cases, all_plans(journal), day)
    with_case = {case.plant_id for case in cases}
    return overview(plants, leaf_totals(journal), day, with_case, {one.plant.id for one in waiting}), waiting
