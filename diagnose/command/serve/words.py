"""The options of `diagnose serve`; its work is imported when it is called."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from diagnose.command.output import Exit


def add(commands: Any, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add `serve` to the commands."""
    what = "show the screens on a page for a browser on this machine"
    parser = commands.add_parser("serve", help=what, description=f"{what.capitalize()}. Ctrl-C ends it.")
    parser.add_argument("case", nargs="?", type=Path, metavar="CASE", help="case file to open at once")
    parser.add_argument(
        "--host",
        default="127.0.0.1",
        metavar="ADDR",
        help="address to listen at (default 127.0.0.1, this machine alone); any other needs the token it prints",
    )
    parser.add_argument(
        "--port", type=int, default=8000, metavar="N", help="default 8000; 0 takes any free one"
    )
    rules_option(parser)
    parser.set_defaults(run=_serve)


def _serve(asked: argparse.Namespace) -> Exit:
    from diagnose.command.serve.serve import serve

    return serve(asked.host, asked.port, asked.case, asked.rules)
