"""In and out: `diagnose import`, `diagnose backup`, `diagnose journal check|export|restore|take|give`."""

from collections import defaultdict
from pathlib import Path

from diagnose.case import LeafCount
from diagnose.casefile import read_case, write_case
from diagnose.collection.leaf_table import Columns, chosen_columns, read_rows, read_table
from diagnose.command.journal.case import typed
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, complain, data
from diagnose.journal import cases, counts, plants
from diagnose.journal.archive import read_archive, write_archive
from diagnose.journal.backup import backup as copied
from diagnose.journal.open import damage
from diagnose.problems import BadInputError, Problem, shown

_MOST_BYTES = 100_000_000


def import_counts(journal: Path | None, file: Path, told: str, *, yes: bool) -> int:
    """Take leaf counts from a CSV file: show how its columns are understood, ask, then take all of it or nothing."""
    table = read_table(_text(file), str(file))
    columns = chosen_columns(table, told)
    rows, problems = read_rows(table, columns, today(), str(file))
    complain(problems)
    data(_understood(columns))
    names = {row.plant.lower(): row.plant for row in rows}
    data(f"{len(rows)} counts of {len(names)} plants; {len(problems) or 'no'} rows left out.")
    if not rows:
        return Exit.BAD_INPUT
    if not yes and (typed("Take them in? y or n") or "n").lower() not in ("y", "yes"):
        data("Nothing was taken in. --columns plant=NAME,date=NAME,leaves=NAME says otherwise.")
        return Exit.BAD_INPUT
    with opened(journal) as book, book.writing():
        known = {plant.name.lower(): plant for plant in plants.all_plants(book, gone_too=True)}
        new = 0
        by_plant: dict[int, list[LeafCount]] = defaultdict(list)
        for row in rows:
            key = row.plant.lower()
            if key not in known:
                known[key] = plants.add_plant(book, names[key], place=row.place, kind=row.kind)
                new += 1
            by_plant[known[key].id].append(row.count)
        added = counts.add_counts(book, by_plant)
    data(f"{added} counts taken in ({len(rows) - added} were there already), {new} new plants.")
    return Exit.BAD_INPUT if problems else Exit.DONE


def backup(journal: Path | None, to: Path) -> int:
    """Copy the journal while it may be in use."""
    with opened(journal) as book:
        copied(book, to)
    data(f"Copied to {to}.")
    return Exit.DONE


def check(journal: Path | None) -> int:
    """Look through the whole file for damage."""
    with opened(journal) as book:
        if book.problem:
            return Exit.FAULTS
        found = damage(book.db, full=True)
        lost = book.rows("PRAGMA foreign_key_check")
        rows = {
            table: book.rows(f"SELECT count(*) FROM {table}")[0][0]
            for table in ("plants", "leaf_counts", "cases")
        }
    if found or lost:
        complain(
            [
                Problem(
                    str(book.path),
                    None,
                    "",
                    f"damage ({found or 'rows without their parents'})",
                    "a sound file",
                )
            ]
        )
        return Exit.FAULTS
    data(f"{book.path}: sound; {rows['plants']} plants, {rows['leaf_counts']} counts, {rows['cases']} cases.")
    return Exit.DONE


def export(journal: Path | None, to: Path) -> int:
    """Write the whole journal as one archive; of a damaged one, all that can be read."""
    with opened(journal) as book:
        broken = write_archive(book, to)
    if broken:
        problem = Problem(
            str(to), None, "", f"damaged parts of {', '.join(broken)}", "whole tables", "the rest was written"
        )
        complain([problem])
    data(f"Written to {to}.")
    return Exit.FAULTS if broken else Exit.DONE


def restore(journal: Path | None, archive: Path) -> int:
    """Make a journal of an archive."""
    with opened(journal) as book:
        rows = read_archive(book, archive)
    data(f"{rows} rows restored to {book.path}.")
    return Exit.DONE


def take(journal: Path | None, files: list[Path], name: str | None) -> int:
    """Take case files in, each to the plant of its name."""
    code = Exit.DONE
    with opened(journal) as book:
        for file in files:
            case, problems = read_case(file)
            complain(problems, str(file))
            code = Exit.BAD_INPUT if problems else code
            called = name or case.plant.name or case.title or file.stem
            cases.import_case(book, case, called)
            data(f"{file}: taken in as a case of {called}.")
    return code


def give(journal: Path | None, name: str, to: Path) -> int:
    """Write a plant's latest case as a case file."""
    if to.exists():
        raise BadInputError([Problem(str(to), None, "", "a file that exists", "a new name")])
    with opened(journal) as book:
        plant = plants.find_plant(book, name)
        found = cases.cases_of(book, plant.id)
        if not found:
            raise BadInputError(
                [Problem(None, None, "PLANT", f"no case of {plant.name}", "a plant with a case")]
            )
        write_case(to, cases.read_case_record(book, found[-1], today()))
    data(f"Written to {to}.")
    return Exit.DONE


def _understood(columns: Columns) -> str:
    lines = [f"  {ours:<7} <- {theirs}" for ours, theirs in columns.of.items()]
    return "\n".join(["Columns as understood:", *lines, f"  dates with slashes: {columns.dates}"])


def _text(file: Path) -> str:
    try:
        if file.stat().st_size > _MOST_BYTES:
            raise BadInputError(
                [Problem(str(file), None, "", "more than 100 MB", "a smaller table", "split it")]
            )
        return file.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise BadInputError([Problem(str(file), None, "", shown(error.strerror), "a CSV file")]) from None
    except UnicodeDecodeError as error:
        found = f"a byte that is not UTF-8 at {error.start}"
        raise BadInputError([Problem(str(file), None, "", found, "UTF-8 text", "save it as UTF-8")]) from None
