"""`diagnose calibration`: how often the ranking is right, and how honest its probabilities are, on settled cases."""

import argparse
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from diagnose.command.output import data
from diagnose.language import _
from diagnose.problems import Problem

Verbs = Any  # what argparse gives for adding commands has no public type


def add(commands: Verbs, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add `calibration` to the commands."""
    what = _(
        "show how often the true cause comes first and how honest the probabilities are, on cases that expect one"
    )
    parser = commands.add_parser("calibration", help=what, description=what)
    parser.add_argument(
        "cases",
        nargs="*",
        type=Path,
        metavar=_("CASE"),
        help=_("case files with 'expect' (default: all demo cases)"),
    )
    parser.add_argument(
        "--picture", type=Path, metavar=_("FILE.svg"), help=_("also draw stated against came true")
    )
    parser.add_argument("--force", action="store_true", help=_("overwrite the picture if it is there"))
    rules_option(parser)
    parser.set_defaults(run=_run)


def calibrate(
    cases: Sequence[Path], house: Sequence[Path], picture: Path | None = None, *, force: bool = False
) -> int:
    """Print the figures over all cases that expect a cause; those that expect none are told and left out."""
    from diagnose import locations
    from diagnose.calibration import calibration, pairs_of
    from diagnose.command.keep.written import refuse_existing, write_new
    from diagnose.command.opened import Told, cases_read
    from diagnose.diagnosis import open_rules
    from diagnose.report.calibration_text import calibration_text
    from diagnose.report.pictures.reliability import reliability_diagram

    if picture:
        refuse_existing(picture, force=force)
    diagnostician, told = open_rules(house), Told()
    told.tell(diagnostician.base.problems)
    known = diagnostician.base.causes
    pairs, ranks = [], []
    for path, case, problems in cases_read(cases or locations.demo_case_files(), told):
        expected = [cause for cause in case.expect if cause in known]
        told.tell((*problems, *([] if expected else [_expects_none(case.expect, known)])), str(path))
        if expected:
            ranking = diagnostician.diagnose(case).ranking
            pairs += pairs_of(ranking, expected)
            ranks.append(min(ranking.of(cause).rank for cause in expected))
    if ranks:
        found = calibration(pairs)
        data(calibration_text(found, ranks))
        if picture:
            write_new(picture, reliability_diagram(found).encode(), force=force)
    return told.exit


def _expects_none(expect: Sequence[str], known: Iterable[str]) -> Problem:
    ids = _("ids of causes, such as {some}").format(some=", ".join(sorted(known)[:3]))
    return Problem(None, None, "expect", ", ".join(expect) or _("nothing"), ids)


def _run(asked: argparse.Namespace) -> int:
    return calibrate(asked.cases, asked.rules, asked.picture, force=asked.force)
