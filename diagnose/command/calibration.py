"""`diagnose calibration`: how often the ranking is right, and how honest its probabilities are, on settled cases."""

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from diagnose.command.output import Exit, complain, data

Verbs = Any  # what argparse gives for adding commands has no public type


def add(commands: Verbs, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add `calibration` to the commands."""
    what = "show how often the true cause comes first and how honest the probabilities are, on cases that expect one"
    parser = commands.add_parser("calibration", help=what, description=what)
    parser.add_argument(
        "cases",
        nargs="*",
        type=Path,
        metavar="CASE",
        help="case files with 'expect' (default: all demo cases)",
    )
    parser.add_argument("--picture", type=Path, metavar="FILE.svg", help="also draw stated against came true")
    parser.add_argument("--force", action="store_true", help="overwrite the picture if it is there")
    rules_option(parser)
    parser.set_defaults(run=_run)


def calibrate(
    cases: Sequence[Path], house: Sequence[Path], picture: Path | None = None, *, force: bool = False
) -> int:
    """Print the figures over all cases that expect a cause; those that expect none are told and left out."""
    from diagnose import locations
    from diagnose.calibration import calibration, pairs_of
    from diagnose.casefile import read_case
    from diagnose.diagnosis import open_rules
    from diagnose.problems import BadInputError, Problem
    from diagnose.report.calibration_text import calibration_text

    diagnostician = open_rules(house)
    complain(diagnostician.base.problems)
    code = Exit.BAD_INPUT if diagnostician.base.problems else Exit.DONE
    known = diagnostician.base.causes
    pairs, ranks = [], []
    for path in cases or locations.demo_case_files():
        try:
            case, problems = read_case(path)
        except BadInputError as error:
            complain(error.problems)
            code = Exit.BAD_INPUT
            continue
        expected = [cause for cause in case.expect if cause in known]
        if not expected:
            wanted = "ids of causes, such as " + ", ".join(sorted(known)[:3])
            problems += (Problem(None, None, "expect", ", ".join(case.expect) or "nothing", wanted),)
        complain(problems, str(path))
        code = Exit.BAD_INPUT if problems else code
        if expected:
            ranking = diagnostician.diagnose(case).ranking
            pairs += pairs_of(ranking, expected)
            ranks.append(min(ranking.of(cause).rank for cause in expected))
    if ranks:
        found = calibration(pairs)
        data(calibration_text(found, ranks))
        if picture:
            from diagnose.command.keep.written import write_new
            from diagnose.report.pictures.reliability import reliability_diagram

            write_new(picture, reliability_diagram(found).encode(), force=force)
    return code


def _run(asked: argparse.Namespace) -> int:
    return calibrate(asked.cases, asked.rules, asked.picture, force=asked.force)
