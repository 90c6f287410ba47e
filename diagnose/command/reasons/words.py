"""`diagnose why`, `next`, `whatif` and `firm` with their options; the work is imported when they are called."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from diagnose.command.parsing import whole_number
from diagnose.language import _

Commands = Any  # what argparse gives for adding commands has no public type


def add(commands: Commands, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add the four to the commands."""
    why = commands.add_parser(
        "why", help=_("show why a cause has its rank, down to the answers, and why not first")
    )
    why.add_argument("case", type=Path, metavar=_("CASE"))
    why.add_argument("cause", metavar=_("CAUSE"), help=_("id or name of a cause, such as root_rot"))
    why.add_argument("--over", metavar=_("CAUSE"), help=_("show it side by side with another cause instead"))
    why.set_defaults(run=_why)

    next_ = commands.add_parser("next", help=_("what to check next, most telling for its effort first"))
    next_.add_argument("case", type=Path, metavar=_("CASE"))
    next_.add_argument(
        "--show",
        type=whole_number,
        default=5,
        metavar=_("N"),
        help=_("how many checks to show in full (default: 5)"),
    )
    next_.set_defaults(run=_next)

    whatif = commands.add_parser("whatif", help=_("what other answers would do; the case is left as it is"))
    whatif.add_argument("case", type=Path, metavar=_("CASE"))
    whatif.add_argument(
        "answers",
        nargs="+",
        metavar=_("QUESTION=ANSWER"),
        help=_("as in 'diagnose ask'; QUESTION=? for not known"),
    )
    whatif.set_defaults(run=_whatif)

    firm = commands.add_parser("firm", help=_("how sure the ranking is, and what would change it"))
    firm.add_argument("case", type=Path, metavar=_("CASE"))
    firm.set_defaults(run=_firm)

    for command, name in ((why, "why"), (next_, "next"), (whatif, "whatif"), (firm, "firm")):
        command.add_argument(
            "--json", action="store_true", help=_("as JSON (see 'diagnose schema {name}')").format(name=name)
        )
        rules_option(command)


def _why(asked: argparse.Namespace) -> int:
    from diagnose.command.reasons.reasons import over, why

    if asked.over is not None:
        return over(asked.case, asked.cause, asked.over, asked.rules, as_json=asked.json)
    return why(asked.case, asked.cause, asked.rules, as_json=asked.json)


def _next(asked: argparse.Namespace) -> int:
    from diagnose.command.reasons.reasons import next_

    return next_(asked.case, asked.rules, asked.show, as_json=asked.json)


def _whatif(asked: argparse.Namespace) -> int:
    from diagnose.command.reasons.reasons import what_if

    return what_if(asked.case, asked.answers, asked.rules, as_json=asked.json)


def _firm(asked: argparse.Namespace) -> int:
    from diagnose.command.reasons.reasons import firm

    return firm(asked.case, asked.rules, as_json=asked.json)
