"""What commands and screens both do with the journal: sum the collection up, inform a case, keep a ranking."""

import datetime as dt
from dataclasses import dataclass

from diagnose.case import Case, LeafCount
from diagnose.collection.followup import Due, due
from diagnose.collection.neighbours import facts_for, informed
from diagnose.collection.overview import Overview, overview
from diagnose.collection.standout import standout
from diagnose.diagnosis import Diagnosis, Diagnostician, plan_for
from diagnose.journal import Journal, cases, plans, rankings
from diagnose.journal.cases import all_cases
from diagnose.journal.counts import counts_of, latest_date, leaf_totals
from diagnose.journal.plans import all_plans
from diagnose.journal.plants import all_plants, events, photos
from diagnose.journal.records import CaseRecord, EventRecord, Outcome, PhotoRecord, PlantRecord, RankingRecord
from diagnose.language import _
from diagnose.problems import BadInputError, Problem


def day_of_counts(journal: Journal, now: dt.date, told: dt.date | None = None) -> dt.date:
    """Return the day that counts are put to: the one told, else today (`now`).

    Raises:
        BadInputError: the day told lies ahead, or the clock stands before the latest count, so one of them is wrong.

    """
    latest = latest_date(journal)
    if told is not None and told > now:
        raise BadInputError(
            [
                Problem(
                    None, None, "--date", told.isoformat(), _("a day not after today, {day}").format(day=now)
                )
            ]
        )
    if told is None and latest is not None and latest > now:
        raise BadInputError(
            [
                Problem(
                    str(journal.path),
                    None,
                    "",
                    _("a count of {latest} while this computer's clock says {now}").format(
                        latest=latest, now=now
                    ),
                    _("a clock not behind the latest count"),
                    _("set the clock, or give the day with --date, such as --date {now}").format(now=now),
                )
            ]
        )
    return told or now


def count_before(journal: Journal, plant_id: int, day: dt.date) -> LeafCount | None:
    """Return a plant's last count before a day: what a recount of that day is held against."""
    return max(
        (count for count in counts_of(journal, plant_id) if count.date < day),
        key=lambda count: count.date,
        default=None,
    )


def rows_of(journal: Journal, day: dt.date) -> tuple[tuple[Overview, ...], tuple[Due, ...]]:
    """Return every plant at a glance, and the plans that ask to look again."""
    plants, cases = all_plants(journal), all_cases(journal, settled=False)
    waiting = due(plants, cases, all_plans(journal), day)
    with_case = {case.plant_id for case in cases}
    return overview(plants, leaf_totals(journal), day, with_case, {one.plant.id for one in waiting}), waiting


class Informer:
    """Gives cases what the journal knows of the collection; looks at the collection once."""

    def __init__(self, book: Journal, diagnostician: Diagnostician, day: dt.date) -> None:
        self._book, self._day = book, day
        self._asked = frozenset(diagnostician.base.questions)
        self._rows, _ = rows_of(book, self._day)
        self._found = standout(self._rows, events(book), self._day)

    def case(self, record: CaseRecord) -> Case:
        """Return the case as of that day, with what the journal knows of the plant's neighbours."""
        case = cases.read_case_record(self._book, record, self._day)
        row = next((row for row in self._rows if row.plant.id == record.plant_id), None)
        return case if row is None else informed(case, facts_for(row, self._rows, self._found), self._asked)


def keep_ranking(book: Journal, record: CaseRecord, diagnosis: Diagnosis) -> RankingRecord:
    """Keep a ranking, and a plan with it if the case has none or another cause is first now."""
    before = rankings.rankings_of(book, record.id)
    kept = rankings.add_ranking(book, record, diagnosis)
    if not before or before[-1].causes[0].id != kept.causes[0].id or not plans.plans_of(book, record.id):
        plans.add_plan(book, kept, plan_for(diagnosis))
    return kept


@dataclass(frozen=True, slots=True)
class CaseStory:
    """A case, its rankings in order, and what it turned out to be."""

    record: CaseRecord
    rankings: tuple[RankingRecord, ...]
    outcome: Outcome | None


@dataclass(frozen=True, slots=True)
class AboutPlant:
    """All that the journal knows of one plant; `row` is None once it has left the collection."""

    plant: PlantRecord
    row: Overview | None
    counts: tuple[LeafCount, ...]
    events: tuple[EventRecord, ...]
    photos: tuple[PhotoRecord, ...]
    cases: tuple[CaseStory, ...]


def about_plant(journal: Journal, plant: PlantRecord, day: dt.date) -> AboutPlant:
    """Return all that is known of a plant."""
    rows, _ = rows_of(journal, day)
    ends = cases.outcomes(journal)
    return AboutPlant(
        plant,
        next((row for row in rows if row.plant.id == plant.id), None),
        counts_of(journal, plant.id),
        events(journal, plant.id),
        photos(journal, plant.id),
        tuple(
            CaseStory(case, rankings.rankings_of(journal, case.id), ends.get(case.id))
            for case in cases.cases_of(journal, plant.id)
        ),
    )
