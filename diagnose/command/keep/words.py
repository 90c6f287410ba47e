"""`diagnose plan` and `diagnose report` with their options; the work is imported when they are called."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from diagnose.language import _

Commands = Any  # what argparse gives for adding commands has no public type


def add(commands: Commands, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add `plan` and `report` to the commands."""
    plan = commands.add_parser("plan", help=_("what to do now, in which order, and when to look again"))
    plan.add_argument("case", type=Path, metavar=_("CASE"))
    plan.add_argument(
        "--json", action="store_true", help=_("as JSON (see 'diagnose schema {name}')").format(name="plan")
    )
    plan.add_argument(
        "--calendar", type=Path, metavar=_("FILE.ics"), help=_("also write its days to a calendar file")
    )
    plan.set_defaults(run=_plan)

    report = commands.add_parser("report", help=_("write one page for a friend, a forum or a plant clinic"))
    report.add_argument("case", type=Path, metavar=_("CASE"))
    report.add_argument(
        "-o", dest="file", type=Path, required=True, metavar=_("FILE"), help=_("ending in .html, .md or .pdf")
    )
    report.add_argument("--paper", choices=["a4", "letter"], default="a4", help=_("of a PDF (default: a4)"))
    report.set_defaults(run=_report)

    for command in (plan, report):
        command.add_argument(
            "--with-place", action="store_true", help=_("show where the plant stands, left out otherwise")
        )
        command.add_argument("--force", action="store_true", help=_("overwrite a file that is there already"))
        rules_option(command)


def _plan(asked: argparse.Namespace) -> int:
    from diagnose.command.keep.plan import plan

    return plan(
        asked.case,
        asked.rules,
        as_json=asked.json,
        calendar=asked.calendar,
        force=asked.force,
        with_place=asked.with_place,
    )


def _report(asked: argparse.Namespace) -> int:
    from diagnose.command.keep.report import report

    return report(
        asked.case, asked.file, asked.rules, force=asked.force, with_place=asked.with_place, paper=asked.paper
    )
