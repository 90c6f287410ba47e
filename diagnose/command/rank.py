"""`diagnose rank`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.command.opened import Told, cases_read
from diagnose.command.output import data, document
from diagnose.diagnosis import open_rules
from diagnose.report.text import ranking_text


def rank(cases: Sequence[Path], house: Sequence[Path], *, as_json: bool) -> int:
    """Print the ranking of every case; faulty fields and files are told, the rest is still ranked."""
    diagnostician, told = open_rules(house), Told()
    told.tell(diagnostician.base.problems)
    documents = []
    for path, case, of_file in cases_read(cases, told):
        diagnosis = diagnostician.diagnose(case)
        problems = (*of_file, *diagnosis.gathered.problems)
        told.tell(problems, str(path))
        if as_json:
            from diagnose.report.as_json import ranking_document

            sentences = tuple(problem.sentence() for problem in (*problems, *diagnostician.base.problems))
            documents.append(ranking_document(diagnosis, str(path), sentences).model_dump(mode="json"))
        else:
            data(("\n" if path != cases[0] else "") + ranking_text(diagnosis))
    if as_json:
        document(documents[0] if len(cases) == 1 and documents else documents)
    return told.exit
