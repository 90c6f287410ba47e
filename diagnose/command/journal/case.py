"""Cases of the journal: `diagnose ask --plant`, `diagnose journal rank`, `diagnose settle`."""

import json
import shlex
from collections.abc import Sequence
from pathlib import Path

from diagnose.bookkeeping import Informer, keep_ranking
from diagnose.command.ask import converse
from diagnose.command.causes import cause_named
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import open_rules
from diagnose.journal import cases, rankings
from diagnose.journal.plants import all_plants, find_plant
from diagnose.journal.records import PlantRecord
from diagnose.language import _
from diagnose.problems import BadInputError, Problem
from diagnose.questionnaire import Questionnaire
from diagnose.report.words import lower_first, percent
from diagnose.rulebase.model import Cause


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
        data("\n".join(f"{plant:<24} {cause:<40} {percent(p)}" for plant, _id, cause, p, _verdict in told))
    else:
        data(_("No case is open; 'diagnose ask --plant NAME' begins one."))
    return Exit.DONE


def settle(journal: Path | None, name: str, cause: str, how: str, house: Sequence[Path]) -> int:
    """Say what a plant's case turned out to be."""
    known = open_rules(house).base.causes
    cause = cause_named(cause, known, _("CAUSE"))
    with opened(journal) as book:
        plant = find_plant(book, name)
        found = cases.cases_of(book, plant.id)
        if not found:
            raise BadInputError([no_case(plant)])
        ranked = rankings.rankings_of(book, found[-1].id)
        cases.settle(book, found[-1], today(), cause, how)
    data(settled_as(plant, known[cause]))
    if ranked:
        place = next((n for n, one in enumerate(ranked[-1].causes, start=1) if one.id == cause), None)
        if place:
            said = percent(ranked[-1].causes[place - 1].probability)
            data(
                _("The last ranking had it at place {place} with {percent}.").format(
                    place=place, percent=said
                )
            )
    return Exit.DONE


def settled_as(plant: PlantRecord, cause: Cause) -> str:
    """Return what is said when a case is settled."""
    return _("{plant}: settled as {cause}.").format(plant=plant.name, cause=lower_first(cause.name))


def no_case(plant: PlantRecord) -> Problem:
    """Return the fault of a plant that has no case yet."""
    found = _("no case of {plant}").format(plant=plant.name)
    begin = f"diagnose ask --plant {shlex.quote(plant.name)}"
    mend = _("begin one with {command}").format(command=begin)
    return Problem(None, None, _("PLANT"), found, _("a plant with a case"), mend)
