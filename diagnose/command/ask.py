"""`diagnose ask`: the questionnaire in plain lines, for screen readers, simple terminals and pipes."""

import datetime as dt
import sys
from collections.abc import Sequence
from pathlib import Path

from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain, data
from diagnose.command.typed import is_said, is_stop
from diagnose.diagnosis import open_rules
from diagnose.language import _, marked
from diagnose.measures.leaves.consistency import inconsistencies
from diagnose.problems import BadInputError, Problem
from diagnose.questionnaire import Questionnaire, TypedError, read_typed
from diagnose.questionnaire.records import known_place, read_plant
from diagnose.questionnaire.table import read_leaf_table
from diagnose.questionnaire.typed import choices_of
from diagnose.questionnaire.words import is_not_known
from diagnose.report.text import ranking_text, wrapped
from diagnose.report.words import percent
from diagnose.rulebase.model import Question
from diagnose.rulebase.vocabulary import unit_said

_HELP = marked("""Type an answer, or one of these words:
  ?       don't know          back    the question before    undo   take the last answer back
  help    how to look, why    rank    the ranking so far     stop   leave; answers are kept""")
_HINTS = {
    "several": marked("Numbers of all that apply, or none."),
    "date": marked('A date, such as "3 weeks ago".'),
    "leaf_history": marked("Rows such as: 2026-03-01 5 leaves 1 new 0 lost; rows parted by semicolons."),
    "place": marked("A city, or latitude and longitude in degrees, such as 52.1 -1.4."),
    "plant_profile": marked("The kind of plant, such as alocasia."),
}


def ask(path: Path, house: Sequence[Path]) -> int:
    """Ask every open question of a case file (a new one if it does not exist), then print the ranking."""
    if path.exists():
        case, problems = read_case(path)
        complain(problems)
        if problems:
            raise BadInputError(
                [
                    Problem(
                        str(path),
                        None,
                        "",
                        _("fields at fault (above)"),
                        _("a sound file"),
                        _("mend it first"),
                    )
                ]
            )
    else:
        case = Case(date=dt.date.today())  # noqa: DTZ011 - the grower's own calendar day
    questionnaire = Questionnaire(open_rules(house), case, path)
    converse(questionnaire)
    return Exit.DONE


def converse(questionnaire: Questionnaire) -> None:
    """Ask every open question until the end or "stop", then print the ranking."""
    complain(questionnaire.diagnosis.base.problems)
    data(_("Answers are kept in {file}.").format(file=questionnaire.path) + "\n" + _(_HELP))
    while (question := questionnaire.current) is not None:
        data("\n" + _asked(questionnaire, question))
        line = sys.stdin.readline()
        if not line or not _heed(questionnaire, question, line.strip()):
            break
    data("\n" + ranking_text(questionnaire.diagnosis))


def _asked(questionnaire: Questionnaire, question: Question) -> str:
    done, total = (sum(n) for n in zip(*((p.done, p.total) for p in questionnaire.progress()), strict=True))
    subject = questionnaire.diagnosis.base.subjects[question.subject].name
    head = _("{subject}, {done} of {total} done").format(subject=subject, done=done, total=total)
    lines = [head, *wrapped(question.text)]
    lines += [f"  {number}  {label}" for number, (_id, label) in enumerate(choices_of(question), start=1)]
    return "\n".join([*lines, _hint(question)]).rstrip()


def _hint(question: Question) -> str:
    if question.kind == "number":
        return _("A number in {unit}.").format(unit=unit_said(question.unit))
    return _(_HINTS[question.kind]) if question.kind in _HINTS else ""


def _heed(questionnaire: Questionnaire, question: Question, line: str) -> bool:
    """Do what a line says; False when it says to stop."""
    if is_stop(line):
        return False
    if is_said(line, marked("help")):
        why = _("Why it is asked: {reason}").format(reason=question.why)
        data("\n".join([*wrapped(question.help), *wrapped(why)]))
    elif is_said(line, marked("rank")):
        data(
            "\n".join(
                f"{r.rank:>3}  {r.name:<40} {percent(r.probability)}"
                for r in questionnaire.diagnosis.ranking.causes
            )
        )
    elif is_said(line, marked("back")):
        questionnaire.step(-1)
    elif is_said(line, marked("undo")):
        if not questionnaire.undo():
            data(_("Nothing to take back."))
    elif not line or is_not_known(line) or (line == "0" and question.kind in ("choice", "yes_no")):
        questionnaire.do_not_know()
    else:
        _answer(questionnaire, question, line)
    return True


def _answer(questionnaire: Questionnaire, question: Question, line: str) -> None:
    case = questionnaire.case
    south = case.place.is_southern
    try:
        if question.kind == "place":
            place, said = known_place(line)
            questionnaire.record(place)
            if said:
                data(_("Taken as {place}.").format(place=said))
        elif question.kind == "plant_profile":
            questionnaire.record(read_plant(line, case.plant, questionnaire.diagnosis.base.plants))
        elif question.kind == "leaf_history":
            questionnaire.record(read_leaf_table(line.replace(";", "\n"), case.date, south=south))
            for problem in inconsistencies(questionnaire.case):
                data(problem.sentence())
        else:
            questionnaire.answer(read_typed(question, line, case.date, south=south))
    except TypedError as error:
        data(str(error))
