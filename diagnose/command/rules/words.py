"""The verbs of `diagnose rules` and their options; each verb's work is imported when it is called."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from diagnose.language import _

Verbs = Any  # what argparse gives for adding commands has no public type


def add(commands: Verbs, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add `rules` and its verbs to the commands."""
    rules = commands.add_parser("rules", help=_("check, list, show, try and write rules"))
    verbs = rules.add_subparsers(metavar=_("VERB"), title=_("verbs"), required=True)

    def verb(name: str, what: str, run: Callable[[argparse.Namespace], int]) -> argparse.ArgumentParser:
        parser: argparse.ArgumentParser = verbs.add_parser(name, help=what, description=what)
        rules_option(parser)
        parser.set_defaults(run=run)
        return parser

    check = verb("check", _("look for faults in the rules; exit code 1 if there are any"), _check)
    check.add_argument(
        "folder",
        nargs="?",
        type=Path,
        metavar=_("DIR"),
        help=_("a folder or file of house rules (default: those in use)"),
    )
    form = check.add_mutually_exclusive_group()
    form.add_argument("--json", dest="form", action="store_const", const="json", help=_("as JSON"))
    form.add_argument("--sarif", dest="form", action="store_const", const="sarif", help=_("as SARIF 2.1.0"))
    check.set_defaults(form="text")

    list_ = verb("list", _("list entries of the rule base"), _list)
    list_.add_argument(
        "table",
        nargs="?",
        metavar=_("TABLE"),
        help=_("only one kind: question, finding, rule, evidence, cause ..."),
    )

    show = verb("show", _("explain an entry in words, and where it fires"), _show)
    show.add_argument("id", metavar=_("ID"), help=_("id of the entry"))
    show.add_argument(
        "--case",
        dest="cases",
        nargs="+",
        type=Path,
        default=[],
        metavar=_("FILE"),
        help=_("cases to try it on"),
    )

    new = verb("new", _("write a new rule by answering a few questions"), _new)
    new.add_argument(
        "-o", dest="file", type=Path, metavar=_("FILE"), help=_("where to write it; never an existing file")
    )

    try_ = verb("try", _("show what a new file of rules would change"), _try)
    try_.add_argument("file", type=Path, metavar=_("FILE"), help=_("the new file (or a folder)"))
    try_.add_argument(
        "cases", nargs="*", type=Path, metavar=_("CASE"), help=_("case files (default: all demo cases)")
    )

    book = verb("book", _("write the whole rule base as one page to read or print"), _book)
    book.add_argument(
        "-o", dest="file", type=Path, required=True, metavar=_("FILE"), help=_("ending in .html or .md")
    )
    book.add_argument("--force", action="store_true", help=_("write over an existing file"))

    translate = verb("translate", _("write the rules' texts into .po files for a translator"), _translate)
    translate.add_argument("language", metavar=_("LANGUAGE"), help=_("code of the language, such as de"))
    translate.add_argument(
        "folder", nargs="?", type=Path, metavar=_("DIR"), help=_("a rules folder (default: the built-in one)")
    )


def _check(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.check import check

    return check(asked.folder, asked.rules, asked.form)


def _list(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.look import list_entries

    return list_entries(asked.table, asked.rules)


def _show(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.look import show

    return show(asked.id, asked.rules, asked.cases)


def _new(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.new import new

    return new(asked.file, asked.rules)


def _try(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.tryout import try_out

    return try_out(asked.file, asked.cases, asked.rules)


def _book(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.book import write_book

    return write_book(asked.file, asked.rules, force=asked.force)


def _translate(asked: argparse.Namespace) -> int:
    from diagnose.command.rules.translate import translate

    return translate(asked.language, asked.folder)
