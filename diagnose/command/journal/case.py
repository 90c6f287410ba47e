"""Cases of the journal: `diagnose ask --plant`, `diagnose journal rank`, `diagnose settle`."""

import json
import sys
from collections.abc import Sequence
from pathlib import Path

from diagnose.bookkeeping import Informer, keep_ranking
from diagnose.command.ask import converse
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import open_rules
from diagnose.journal import cases, rankings
from diagnose.journal.plants import all_plants, find_plant
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire import Questionnaire
from diagnose.report.words import percent


def ask_plant(journal: Path | None, name: str, house: Sequence[Path]) -> int:
    """Ask the questions about a plant of the journal; each answer is in it before the next question shows."""
    with opened(journal) as book:
        plant = find_plant(book, name)
        diagnostician = open_rules(house)
        record = cases.begin_case(book, plant.id, today())
        case = Informer(book, diagnostician, today()).case(record)
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
        informer = Informer(book, diagnostician, today())
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


def typed(prompt: str) -> str | None:
    """Ask for a line; None at the end of input."""
    data(prompt)
    line = sys.stdin.readline()
    return line.strip() if line else None
