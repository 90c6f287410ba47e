"""`diagnose rank`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain, data, document
from diagnose.diagnosis import open_rules
from diagnose.problems import BadInputError
from diagnose.report.text import ranking_text


def rank(cases: Sequence[Path], house: Sequence[Path], *, as_json: bool) -> int:
    """Print the ranking of every case; faulty fields and files are told, the rest is still ranked."""
    diagnostician = open_rules(house)
    complain(diagnostician.base.problems)
    code = Exit.BAD_INPUT if diagnostician.base.problems else Exit.DONE
    documents = []
    for path in cases:
        try:
            case, problems = read_case(path)
        except BadInputError as error:
            complain(error.problems)
            code = Exit.BAD_INPUT
            continue
        diagnosis = diagnostician.diagnose(case)
        problems += diagnosis.gathered.problems
        complain(problems, str(path))
        code = Exit.BAD_INPUT if problems else code
        if as_json:
            from diagnose.report.as_json import ranking_document

            told = tuple(problem.sentence() for problem in (*problems, *diagnostician.base.problems))
            documents.append(ranking_document(diagnosis, str(path), told).model_dump(mode="json"))
        else:
            data(("\n" if path != cases[0] else "") + ranking_text(diagnosis))
    if as_json:
        document(documents[0] if len(cases) == 1 and documents else documents)
    return code
