"""The options of `diagnose serve`; its work is imported when it is called."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from diagnose.command.journal.words import journal_option
from diagnose.command.output import Exit
from diagnose.command.parsing import whole_number
from diagnose.language import _


def add(commands: Any, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add `serve` to the commands."""
    parser = commands.add_parser(
        "serve",
        help=_("show the screens on a page for a browser on this machine"),
        description=_("Show the screens on a page for a browser on this machine. Ctrl-C ends it."),
    )
    parser.add_argument("case", nargs="?", type=Path, metavar=_("CASE"), help=_("case file to open at once"))
    parser.add_argument(
        "--host",
        default="127.0.0.1",
        metavar=_("ADDR"),
        help=_(
            "address to listen at (default 127.0.0.1, this machine alone); any other needs the token it prints"
        ),
    )
    parser.add_argument(
        "--port", type=whole_number, default=8000, metavar="N", help=_("default 8000; 0 takes any free one")
    )
    journal_option(parser)
    rules_option(parser)
    parser.set_defaults(run=_serve)


def _serve(asked: argparse.Namespace) -> Exit:
    from diagnose.command.serve.serve import serve

    return serve(asked.host, asked.port, asked.case, asked.rules, asked.journal)
