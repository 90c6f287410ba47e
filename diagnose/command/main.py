"""The commands and their words. Each command's work is in a file of this folder, imported when called."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from diagnose import locations
from diagnose.command import calibration
from diagnose.command.journal import words as journal_words
from diagnose.command.keep import words as keep_words
from diagnose.command.output import Exit, RefusedError, complain, data, go_quiet, talk
from diagnose.command.parsing import speak_as_we_do
from diagnose.command.reasons import words as reasons_words
from diagnose.command.rules import words
from diagnose.command.schema import SHAPES, schema
from diagnose.command.serve import words as serve_words
from diagnose.language import _, preferred, speak
from diagnose.problems import BadInputError, untranslated


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return its exit code (0 done, 1 a check found faults, 2 bad input)."""
    speak_as_chosen()
    parser = _parser()
    asked = parser.parse_args(arguments)
    try:
        return int(asked.run(asked))
    except BadInputError as error:
        complain(error.problems)
        return Exit.BAD_INPUT
    except RefusedError as error:
        talk(str(error))
        return Exit.BAD_INPUT
    except BrokenPipeError:
        go_quiet()
        return Exit.DONE
    except KeyboardInterrupt:
        talk(_("Stopped."))
        return Exit.BAD_INPUT


def speak_as_chosen() -> None:
    """Speak the grower's language from now on, argparse too."""
    complain([untranslated(file) for file in speak(_language())])
    speak_as_we_do()


def _language() -> str:
    """Return the language chosen in the settings, else the environment's; most growers have no settings."""
    chosen = ""
    if locations.settings().exists():
        from diagnose.settings import read_settings

        chosen = read_settings(locations.settings())[0].language
    return chosen or preferred(os.environ)


def _parser() -> argparse.ArgumentParser:
    description = _(
        "Why is this houseplant losing its leaves? Ranked causes, with the reasoning for every rank. "
        "Without a command the screens open."
    )
    parser = argparse.ArgumentParser(prog="diagnose", description=description)
    parser.set_defaults(run=_open_screens, case=None, journal=None)
    _rules_option(parser)
    commands = parser.add_subparsers(metavar=_("COMMAND"), title=_("commands"))

    open_ = commands.add_parser("open", help=_("open the screens, on a case file or another journal"))
    open_.add_argument("case", nargs="?", type=Path, metavar=_("CASE"), help=_("case file to open at once"))
    journal_words.journal_option(open_)
    _rules_option(open_)
    open_.set_defaults(run=_open_screens)

    rank = commands.add_parser("rank", help=_("rank the likely causes of cases, with reasons"))
    rank.add_argument("cases", nargs="+", type=Path, metavar=_("CASE"), help=_("case file"))
    rank.add_argument(
        "--json", action="store_true", help=_("as JSON (see 'diagnose schema {name}')").format(name="ranking")
    )
    _rules_option(rank)
    rank.set_defaults(run=_rank)

    reasons_words.add(commands, _rules_option)

    ask = commands.add_parser("ask", help=_("ask the questions in plain lines and rank at the end"))
    kept = ask.add_mutually_exclusive_group(required=True)
    kept.add_argument(
        "case",
        nargs="?",
        type=Path,
        metavar=_("CASE"),
        help=_("case file; a new one is begun if there is none"),
    )
    kept.add_argument("--plant", metavar=_("NAME"), help=_("a plant of the journal; answers are kept in it"))
    journal_words.journal_option(ask)
    _rules_option(ask)
    ask.set_defaults(run=_ask)

    keep_words.add(commands, _rules_option)
    journal_words.add(commands, _rules_option)
    words.add(commands, _rules_option)
    calibration.add(commands, _rules_option)
    serve_words.add(commands, _rules_option)

    shape = commands.add_parser(
        "schema", help=_("print the JSON Schema of case files, rule files, or what a command gives as JSON")
    )
    shapes = _("one of {known}").format(known=", ".join(SHAPES))
    shape.add_argument("what", choices=list(SHAPES), metavar=_("SHAPE"), help=shapes)
    shape.set_defaults(run=_schema)
    return parser


def _rules_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--rules",
        action="append",
        type=Path,
        default=[],
        metavar=_("DIR"),
        help=_(
            "a folder of house rules, beside rules/house and the one in your settings; may be given again"
        ),
    )


def _open_screens(asked: argparse.Namespace) -> int:
    if not sys.stdout.isatty():
        talk(_("The screens need a terminal; see 'diagnose --help' for commands that print."))
        return Exit.BAD_INPUT
    from diagnose.screens.app import DiagnoseApp

    DiagnoseApp(asked.rules, asked.case, journal=asked.journal).run()
    return Exit.DONE


def _rank(asked: argparse.Namespace) -> int:
    from diagnose.command.rank import rank

    return rank(asked.cases, asked.rules, as_json=asked.json)


def _ask(asked: argparse.Namespace) -> int:
    if asked.plant is not None:
        from diagnose.command.journal.case import ask_plant

        return ask_plant(asked.journal, asked.plant, asked.rules)
    from diagnose.command.ask import ask

    return ask(asked.case, asked.rules)


def _schema(asked: argparse.Namespace) -> int:
    data(schema(asked.what))
    return Exit.DONE
