"""Cases of the journal: `diagnose ask --plant`, `diagnose journal rank`, `diagnose settle`."""

import json
import sys
from collections.abc import Sequence
from pathlib import Path

from diagnose.case import Case
from diagnose.collection.neighbours import facts_for, informed
from diagnose.collection.standout import standout
from diagnose.command.ask import converse
from diagnose.command.journal.opened import opened, rows_of, today
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import Diagnosis, Diagnostician, open_rules, plan_for
from diagnose.journal import Journal, cases, plans, rankings
from diagnose.journal.plants import all_plants, events, find_plant
from diagnose.journal.records import CaseRecord, RankingRecord
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire import Questionnaire
from diagnose.report.words import percent


def ask_plant(journal: Path | None, name: str, house: Sequence[Path]) -> int:
    """Ask the questions about a plant of the journal; each answer is in it before the next question shows."""
    with opened(journal) as book:
        plant = find_plant(book, name)
        diagnostician = open_rules(house)
        record = cases.begin_case(book, plant.id, today())
        case = Informer(book, diagnostician).case(record)
        questionnaire = Questionnaire(
            diagnostician,
            case,
            book.path,
            keep=lambda before, after: cases.save_change(book, record, before, after),
        )
        converse(questionnaire)
        keep_ranking(book, record, questionnaire.diagnosis)
    return Exit.DONE


def rank_open(journal: Path | None, house: Sequence[Path], *, as_json: bool) -> int:
    """Rank every plant with an open case anew, with the counts of today."""
    diagnostician = open_rules(house)
    complain(diagnostician.base.problems)
    told = []
    with opened(journal) as book:
        informer = Informer(book, diagnostician)
        names = {plant.id: plant.name for plant in all_plants(book)}
        for record in cases.all_cases(book, settled=False):
            if record.plant_id not in names:
                continue
            diagnosis = diagnostician.diagnose(informer.case(record))
            if book.problem is None:
                keep_ranking(book, record, diagnosis)
            first = diagnosis.ranking.first
            told.append(
                (names[record.plant_id], first.id, first.name, first.probability, diagnosis.ranking.verdict)
            )
    if as_json:
        keys = ("plant", "cause", "name", "probability", "verdict")
        data(
            json.dumps(
                {"version": 1, "rankings": [dict(zip(keys, one, strict=True)) for one in told]},
                indent=1,
                ensure_ascii=False,
            )
        )
    elif told:
        data("\n".join(f"{plant:<24} {cause:<40} {percent(p)}" for plant, _, cause, p, _ in told))
    else:
        data("No case is open; 'diagnose ask --plant NAME' begins one.")
    return Exit.DONE


def settle(journal: Path | None, name: str, cause: str, how: str, house: Sequence[Path]) -> int:
    """Say what a plant's case turned out to be."""
    known = open_rules(house).base.causes
    if cause not in known:
        expected = "one of " + ", ".join(known)
        raise BadInputError([Problem(None, None, "CAUSE", shown(cause), expected, nearest(cause, known))])
    with opened(journal) as book:
        plant = find_plant(book, name)
        found = cases.cases_of(book, plant.id)
        if not found:
            mend = f"'diagnose ask --plant {plant.name!r}' begins one"
            raise BadInputError(
                [Problem(None, None, "PLANT", f"no case of {plant.name}", "a plant with a case", mend)]
            )
        ranked = rankings.rankings_of(book, found[-1].id)
        cases.settle(book, found[-1], today(), cause, how)
    data(f"{plant.name}: settled as {known[cause].name.lower()}.")
    if ranked:
        place = next((n for n, one in enumerate(ranked[-1].causes, start=1) if one.id == cause), None)
        if place:
            said = percent(ranked[-1].causes[place - 1].probability)
            data(f"The last ranking had it at place {place} with {said}.")
    return Exit.DONE


class Informer:
    """Gives cases what the journal knows of the collection; looks at the collection once."""

    def __init__(self, book: Journal, diagnostician: Diagnostician) -> None:
        self._book, self._day = book, today()
        self._asked = frozenset(diagnostician.base.questions)
        self._rows, _ = rows_of(book, self._day)
        self._found = standout(self._rows, events(book), self._day)

    def case(self, record: CaseRecord) -> Case:
        """Return the case as of today, with what the journal knows of the plant's neighbours."""
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


def typed(prompt: str) -> str | None:
    """Ask for a line; None at the end of input."""
    data(prompt)
    line = sys.stdin.readline()
    return line.strip() if line else None
