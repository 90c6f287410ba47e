"""The journal's commands and their options; each one's work is imported when it is called."""

import argparse
import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import Any

Commands = Any  # what argparse gives for adding commands has no public type
Run = Callable[[argparse.Namespace], int]


def add(commands: Commands, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    """Add the commands on the collection, then `journal` with its verbs."""

    def command(name: str, what: str, run: Run, *, rules: bool = False) -> argparse.ArgumentParser:
        return _command(commands, name, what, run, rules_option if rules else None)

    plants = command("plants", "the collection at a glance: leaves, losses, what is due", _plants)
    plants.add_argument(
        "--sort", default="place", metavar="FIELD", help="such as losses, ratio, counted, -leaves"
    )
    plants.add_argument(
        "--where",
        action="append",
        default=[],
        metavar="TEST",
        help="such as losses=rising or counted>20; may be given again",
    )
    plants.add_argument("--find", default="", metavar="WORDS", help="in name, kind, place, medium and note")
    plants.add_argument("--json", action="store_true", help="as JSON")

    count = command("count", "count leaves, plant after plant of a place, in plain lines", _count)
    count.add_argument("--place", metavar="PLACE", help="only plants of one place (default: all, by place)")
    count.add_argument(
        "--date", type=dt.date.fromisoformat, metavar="DAY", help="of the counts (default: today)"
    )

    standout = command("standout", "plants whose losses rose beyond chance, and what they share", _standout)
    standout.add_argument("--json", action="store_true", help="as JSON")

    followup = command("followup", "look again where a plan asks for it", _followup, rules=True)
    followup.add_argument("--json", action="store_true", help="only list what is due, as JSON")

    settle = command("settle", "say what a plant's case turned out to be", _settle, rules=True)
    settle.add_argument("plant", metavar="PLANT")
    settle.add_argument("cause", metavar="CAUSE", help="id of a cause, such as root_rot")
    settle.add_argument("--how", default="", metavar="TEXT", help="how one knows")

    learn = command("learn", "what settled cases teach about rankings and rules", _learn, rules=True)
    learn.add_argument("--json", action="store_true", help="as JSON")

    taken = command("import", "take leaf counts in from a CSV file", _import)
    taken.add_argument("file", type=Path, metavar="FILE.csv")
    taken.add_argument(
        "--columns",
        default="",
        metavar="MAP",
        help="such as plant=Name,date=Counted,leaves=Total,lost=Dropped",
    )
    taken.add_argument("--yes", action="store_true", help="take them in without asking")

    backup = command("backup", "copy the journal to a file, even while it is in use", _backup)
    backup.add_argument("file", type=Path, metavar="FILE")
    _verbs(commands, rules_option)


def _verbs(commands: Commands, rules_option: Callable[[argparse.ArgumentParser], None]) -> None:
    journal = commands.add_parser("journal", help="plants, events, cases and the journal's file itself")
    verbs = journal.add_subparsers(metavar="VERB", title="verbs", required=True)

    def verb(name: str, what: str, run: Run) -> argparse.ArgumentParser:
        return _command(verbs, name, what, run, None)

    add_ = verb("add", "add a plant", _add)
    change = verb("change", "change what is known of a plant; another place is noted as a move", _change)
    for parser in (add_, change):
        parser.add_argument("name", metavar="NAME")
        parser.add_argument("--kind", help="as you call it, such as alocasia")
        parser.add_argument("--profile", help="id of a plant profile (see 'diagnose rules list plant')")
        parser.add_argument("--place", help="where it stands, such as 'east window'")
        parser.add_argument("--pot-cm", type=float, metavar="CM", help="width of the pot")
        parser.add_argument("--medium", help="what it grows in")
        parser.add_argument("--note", help="anything else")
    change.add_argument("--name", dest="new_name", metavar="NEW", help="another name")
    change.add_argument("--gone", metavar="DAY", help="the day it left the collection")

    event = verb("event", "note what happened to plants", _event)
    event.add_argument(
        "kind", metavar="KIND", help="such as moved, repotted, fed, treated, heating_on, other"
    )
    event.add_argument("names", nargs="*", metavar="PLANT")
    event.add_argument("--place", help="all plants at this place too")
    event.add_argument("--note", default="", help="which feed, where to, ...")

    photo = verb("photo", "note where a photo of a plant lies", _photo)
    photo.add_argument("name", metavar="PLANT")
    photo.add_argument("file", type=Path, metavar="FILE")
    photo.add_argument("--note", default="")
    for parser in (event, photo):
        parser.add_argument(
            "--date", default="today", metavar="DAY", help="such as 2026-03-01 or '3 weeks ago'"
        )

    place = verb("place", "say in which town a place is, for the light of the sky there", _place)
    place.add_argument("label", metavar="PLACE")
    place.add_argument("--at", required=True, metavar="WHERE", help="a town, or latitude and longitude")

    verb("show", "all that is known of one plant", _show).add_argument("name", metavar="PLANT")

    rank = verb("rank", "rank every plant with an open case anew", _rank)
    rank.add_argument("--json", action="store_true", help="as JSON")
    rules_option(rank)

    take = verb("take", "take case files in", _take)
    take.add_argument("files", nargs="+", type=Path, metavar="CASE")
    take.add_argument("--plant", metavar="NAME", help="the plant they are of (default: as the file says)")
    give = verb("give", "write a plant's latest case as a case file", _give)
    give.add_argument("name", metavar="PLANT")
    give.add_argument("file", type=Path, metavar="FILE.toml")

    verb("check", "look through the file for damage; exit code 1 if there is any", _check)
    verb("export", "write the whole journal as one archive of CSV tables", _export).add_argument(
        "file", type=Path, metavar="FILE.zip"
    )
    verb("restore", "make a journal of an archive", _restore).add_argument(
        "file", type=Path, metavar="FILE.zip"
    )


def journal_option(parser: argparse.ArgumentParser) -> None:
    """Let a command be given another journal."""
    parser.add_argument(
        "--journal", type=Path, default=None, metavar="FILE", help="another journal (default: your own)"
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
    return {name: getattr(asked, name) for name in ("kind", "profile", "place", "pot_cm", "medium", "note")}


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
