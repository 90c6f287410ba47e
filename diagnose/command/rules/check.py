"""`diagnose rules check`."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.command.output import Exit, data, document
from diagnose.diagnosis import read_rules
from diagnose.report.rule_check import check_document, remark_line, sarif, summary
from diagnose.rulebase.check import severity
from diagnose.rulecheck import check_rules


def check(folder: Path | None, house: Sequence[Path], form: str) -> int:
    """Print all that is wrong with the rules in use, or with one more folder or file on top of them.

    Advice on files outside that folder is left out: it is for those who write them.
    """
    base = read_rules([*house, *([folder] if folder else [])])
    found = check_rules(base, demo_cases)
    told = [
        problem
        for problem in found
        if severity(problem) == "fault" or folder is None or _lies_in(problem.file, folder)
    ]
    if form == "json":
        document(check_document(base, told).model_dump(mode="json"))
    elif form == "sarif":
        document(sarif(told, Path.cwd()))
    else:
        data("\n".join([*map(remark_line, told), summary(base, told)]))
    return Exit.FAULTS if any(severity(problem) == "fault" for problem in told) else Exit.DONE


def demo_cases() -> Iterator[Case]:
    """Yield the demo cases."""
    for path in locations.demo_case_files():
        yield read_case(path)[0]


def _lies_in(file: str | None, folder: Path) -> bool:
    return file is not None and Path(file).resolve().is_relative_to(folder.resolve())
