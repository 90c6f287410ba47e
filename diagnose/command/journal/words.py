"""The journal's commands and their options; each one's work is imported when it is called."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from diagnose.command.parsing import decimal
from diagnose.language import _

Commands = Any  # what argparse gives for adding commands has no public type
Run = Callable[[argparse.Namespace], int]


def add(commands: Commands, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add the commands on the collection, then `journal` with its verbs."""

    def command(name: str, what: str, run: Run, *, rules: bool = False) -> argparse.ArgumentParser:
        return _command(commands, name, what, run, rules_option if rules else None)

    plants = command("plants", _("the collection at a glance: leaves, losses, what is due"), _plants)
    plants.add_argument(
        "--sort", default="place", metavar=_("FIELD"), help=_("such as losses, ratio, counted, -leaves")
    )
    plants.add_argument(
        "--where",
        action="append",
        default=[],
        metavar=_("TEST"),
        help=_("such as losses=rising or counted>20; may be given again"),
    )
    plants.add_argument(
        "--find", default="", metavar=_("WORDS"), help=_("in name, kind, place, medium and note")
    )
    plants.add_argument("--json", action="store_true", help=_("as JSON"))

    count = command("count", _("count leaves, plant after plant of a place, in plain lines"), _count)
    count.add_argument(
        "--place", metavar=_("PLACE"), help=_("only plants of one place (default: all, by place)")
    )
    count.add_argument("--date", metavar=_("DAY"), help=_("of the counts (default: today)"))

    standout = command(
        "standout", _("plants whose losses rose beyond chance, and what they share"), _standout
    )
    standout.add_argument("--json", action="store_true", help=_("as JSON"))

    followup = command("followup", _("look again where a plan asks for it"), _followup, rules=True)
    followup.add_argument("--json", action="store_true", help=_("only list what is due, as JSON"))

    settle = command("settle", _("say what a plant's case turned out to be"), _settle, rules=True)
    settle.add_argument("plant", metavar=_("PLANT"))
    settle.add_argument("cause", metavar=_("CAUSE"), help=_("id or name of a cause, such as root_rot"))
    settle.add_argument("--how", default="", metavar=_("TEXT"), help=_("how one knows"))

    learn = command("learn", _("what settled cases teach about rankings and rules"), _learn, rules=True)
    learn.add_argument("--json", action="store_true", help=_("as JSON"))

    taken = command("import", _("take leaf counts in from a CSV file"), _import)
    taken.add_argument("file", type=Path, metavar=_("FILE.csv"))
    taken.add_argument(
        "--columns",
        default="",
        metavar=_("MAP"),
        help=_("such as plant=Name,date=Counted,leaves=Total,lost=Dropped"),
    )
    taken.add_argument("--yes", action="store_true", help=_("take them in without asking"))

    backup = command("backup", _("copy the journal to a file, even while it is in use"), _backup)
    backup.add_argument("file", type=Path, metavar=_("FILE"))
    _verbs(commands, rules_option)


def _verbs(commands: Commands, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    journal = commands.add_parser("journal", help=_("plants, events, cases and the journal's file itself"))
    verbs = journal.add_subparsers(metavar=_("VERB"), title=_("verbs"), required=True)

    def verb(name: str, what: str, run: Run) -> argparse.ArgumentParser:
        return _command(verbs, name, what, run, None)

    add_ = verb("add", _("add a plant"), _add)
    change = verb("change", _("change what is known of a plant; another place is noted as a move"), _change)
    for parser in (add_, change):
        parser.add_argument("name", metavar=_("NAME"))
        parser.add_argument("--kind", metavar=_("KIND"), help=_("as you call it, such as alocasia"))
        parser.add_argument(
            "--profile",
            metavar=_("PROFILE"),
            help=_("id of a plant profile (see 'diagnose rules list plant')"),
        )
        parser.add_argument("--place", metavar=_("PLACE"), help=_("where it stands, such as 'east window'"))
        parser.add_argument("--pot-cm", type=decimal, metavar=_("CM"), help=_("width of the pot"))
        parser.add_argument("--medium", metavar=_("MEDIUM"), help=_("what it grows in"))
        parser.add_argument("--note", metavar=_("NOTE"), help=_("anything else"))
        parser.add_argument(
            "--insist", action="store_true", help=_("take the kind as typed, however like a known one it is")
        )
    change.add_argument("--name", dest="new_name", metavar=_("NEW"), help=_("another name"))
    change.add_argument("--gone", metavar=_("DAY"), help=_("the day it left the collection"))

    event = verb("event", _("note what happened to plants"), _event)
    event.add_argument(
        "kind", metavar=_("KIND"), help=_("such as moved, repotted, fed, treated, heating_on, other")
    )
    event.add_argument("names", nargs="*", metavar=_("PLANT"))
    event.add_argument("--place", metavar=_("PLACE"), help=_("all plants at this place too"))
    event.add_argument("--note", metavar=_("NOTE"), default="", help=_("which feed, where to, ..."))

    photo = verb("photo", _("note where a photo of a plant lies"), _photo)
    photo.add_argument("name", metavar=_("PLANT"))
    photo.add_argument("file", type=Path, metavar=_("FILE"))
    photo.add_argument("--note", metavar=_("NOTE"), default="")
    for parser in (event, photo):
        parser.add_argument(
            "--date", default="today", metavar=_("DAY"), help=_("such as 2026-03-01 or '3 weeks ago'")
        )

    place = verb("place", _("say in which town a place is, for the light of the sky there"), _place)
    place.add_argument("label", metavar=_("PLACE"))
    place.add_argument("--at", required=True, metavar=_("WHERE"), help=_("a town, or latitude and longitude"))

    verb("show", _("all that is known of one plant"), _show).add_argument("name", metavar=_("PLANT"))

    rank = verb("rank", _("rank every plant with an open case anew"), _rank)
    rank.add_argument("--json", action="store_true", help=_("as JSON"))
    rules_option(rank)

    take = verb("take", _("take case files in"), _take)
    take.add_argument("files", nargs="+", type=Path, metavar=_("CASE"))
    take.add_argument(
        "--plant", metavar=_("NAME"), help=_("the plant they are of (default: as the file says)")
    )
    give = verb("give", _("write a plant's latest case as a case file"), _give)
    give.add_argument("name", metavar=_("PLANT"))
    give.add_argument("file", type=Path, metavar=_("FILE.toml"))

    verb("check", _("look through the file for damage; exit code 1 if there is any"), _check)
    verb("export", _("write the whole journal as one archive of CSV tables"), _export).add_argument(
        "file", type=Path, metavar=_("FILE.zip")
    )
    verb("restore", _("make a journal of an archive"), _restore).add_argument(
        "file", type=Path, metavar=_("FILE.zip")
    )


def journal_option(parser: argparse.ArgumentParser) -> None:
    """Let a command be given another journal."""
    parser.add_argument(
        "--journal", type=Path, default=None, metavar=_("FILE"), help=_("another journal (default: your own)")
    )


def _command(
    commands: Commands,
    name: str,
    what: str,
    run: Run,
    rules_option: Callable[[argparse.ArgumentParser], None] | None,
) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(name, help=what, description=what)
    journal_option(parser)
    if rules_option:
        rules_option(parser)
    parser.set_defaults(run=run)
    return parser


def _plants(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.look import plants

    return plants(asked.journal, sort=asked.sort, where=asked.where, find=asked.find, as_json=asked.json)


def _count(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.count import count

    return count(asked.journal, asked.place, asked.date)


def _standout(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.look import stand_out

    return stand_out(asked.journal, as_json=asked.json)


def _followup(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.followup import follow_up

    return follow_up(asked.journal, asked.rules, as_json=asked.json)


def _settle(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.case import settle

    return settle(asked.journal, asked.plant, asked.cause, asked.how, asked.rules)


def _learn(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.learn import learn

    return learn(asked.journal, asked.rules, as_json=asked.json)


def _import(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import import_counts

    return import_counts(asked.journal, asked.file, asked.columns, yes=asked.yes)


def _backup(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import backup

    return backup(asked.journal, asked.file)


def _told(asked: argparse.Namespace) -> dict[str, Any]:
    names = ("kind", "profile", "place", "pot_cm", "medium", "note", "insist")
    return {name: getattr(asked, name) for name in names}


def _add(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.plant import add as run

    return run(asked.journal, asked.name, **_told(asked))


def _change(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.plant import change as run

    return run(asked.journal, asked.name, gone=asked.gone, new_name=asked.new_name, **_told(asked))


def _event(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.plant import event as run

    return run(asked.journal, asked.names, asked.kind, date=asked.date, note=asked.note, place=asked.place)


def _photo(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.plant import photo as run

    return run(asked.journal, asked.name, asked.file, date=asked.date, note=asked.note)


def _place(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.plant import place as run

    return run(asked.journal, asked.label, asked.at)


def _show(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.look import show

    return show(asked.journal, asked.name)


def _rank(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.case import rank_open

    return rank_open(asked.journal, asked.rules, as_json=asked.json)


def _take(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import take

    return take(asked.journal, asked.files, asked.plant)


def _give(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import give

    return give(asked.journal, asked.name, asked.file)


def _check(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import check

    return check(asked.journal)


def _export(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import export

    return export(asked.journal, asked.file)


def _restore(asked: argparse.Namespace) -> int:
    from diagnose.command.journal.move import restore

    return restore(asked.journal, asked.file)
