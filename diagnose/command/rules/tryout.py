"""`diagnose rules try`: what a new file changes."""

from collections.abc import Sequence
from pathlib import Path

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import Diagnostician, open_rules
from diagnose.language import _
from diagnose.problems import BadInputError, Problem
from diagnose.report.rule_changes import changes_text
from diagnose.report.rule_check import remark_line
from diagnose.rulebase.check import severity
from diagnose.rulecheck import check_rules


def try_out(file: Path, cases: Sequence[Path], house: Sequence[Path]) -> int:
    """Print the rankings of cases before and after a new file, where they differ; then what is wrong with it."""
    if not file.exists():
        raise BadInputError(
            [Problem(str(file), None, "", _("no such file"), _("a file of rules"), _("check the name"))]
        )
    before = open_rules(house)
    if any(_is_in(name, file) for name in before.base.files):
        data(
            _("{file} is in use already; this is what it changes against the rules without it.").format(
                file=file
            )
        )
        before, after = open_rules(house, leave_out=file), before
    else:
        after = open_rules([*house, file])
    found = [one for one in check_rules(after.base) if one not in before.base.problems]
    new = [
        one for one in found if severity(one) == "fault" or (one.file is not None and _is_in(one.file, file))
    ]
    same = True
    for path in cases or locations.demo_case_files():
        case, problems = read_case(path)
        complain(problems, str(path))
        text = _compared(path.stem, case, before, after)
        if text:
            data(text + "\n")
            same = False
    if same:
        data(_("No ranking changes."))
    for one in new:
        data(remark_line(one))
    return Exit.FAULTS if any(severity(one) == "fault" for one in new) else Exit.DONE


def _compared(name: str, case: Case, before: Diagnostician, after: Diagnostician) -> str:
    one, other = before.diagnose(case), after.diagnose(case)
    complain(other.gathered.problems)
    return changes_text(case.title or name, one.ranking, other.ranking)


def _is_in(name: str, file: Path) -> bool:
    return Path(name).resolve().is_relative_to(file.resolve())
