"""In and out: `diagnose import`, `diagnose backup`, `diagnose journal check|export|restore|take|give`."""

from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path

from diagnose.case import LeafCount
from diagnose.casefile import read_case, write_case
from diagnose.collection.leaf_table import Columns, CountRow, chosen_columns, read_rows, read_table
from diagnose.command.journal.case import no_case
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, complain, data
from diagnose.command.typed import is_yes, typed
from diagnose.journal import cases, counts, plants
from diagnose.journal.archive import read_archive, write_archive
from diagnose.journal.backup import backup as copied
from diagnose.journal.open import damage
from diagnose.language import _, ngettext
from diagnose.problems import BadInputError, Problem, refusal

_MOST_BYTES = 100_000_000


def import_counts(journal: Path | None, file: Path, told: str, *, yes: bool) -> int:
    """Take leaf counts from a CSV file: show how its columns are understood, ask, then take all of it or nothing."""
    table = read_table(_text(file), str(file))
    columns = chosen_columns(table, told)
    rows, problems = read_rows(table, columns, today(), str(file))
    complain(problems)
    data(_understood(columns))
    names = {row.plant.lower(): row.plant for row in rows}
    data(_read(rows, len(names), len(problems)))
    if not rows:
        return Exit.BAD_INPUT
    if not yes and not is_yes(typed(_("Take them in? y or n")) or ""):
        data(_("Nothing was taken in. --columns plant=NAME,date=NAME,leaves=NAME says otherwise."))
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
    taken = ngettext("{count} count taken in", "{count} counts taken in", added).format(count=added)
    before = ngettext("{count} was there already", "{count} were there already", len(rows) - added)
    plants_new = ngettext("{count} new plant", "{count} new plants", new).format(count=new)
    said = _("{taken} ({before}), {plants}.")
    data(said.format(taken=taken, before=before.format(count=len(rows) - added), plants=plants_new))
    return Exit.BAD_INPUT if problems else Exit.DONE


def backup(journal: Path | None, to: Path) -> int:
    """Copy the journal while it may be in use."""
    with opened(journal) as book:
        copied(book, to)
    data(_("Copied to {file}.").format(file=to))
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
                    _("damage ({what})").format(what=found or _("rows without their parents")),
                    _("a sound file"),
                )
            ]
        )
        return Exit.FAULTS
    said = {
        "plants": ngettext("{count} plant", "{count} plants", rows["plants"]).format(count=rows["plants"]),
        "counts": ngettext("{count} count", "{count} counts", rows["leaf_counts"]).format(
            count=rows["leaf_counts"]
        ),
        "cases": ngettext("{count} case", "{count} cases", rows["cases"]).format(count=rows["cases"]),
    }
    data(_("{file}: sound; {plants}, {counts}, {cases}.").format(file=book.path, **said))
    return Exit.DONE


def export(journal: Path | None, to: Path) -> int:
    """Write the whole journal as one archive; of a damaged one, all that can be read."""
    with opened(journal) as book:
        broken = write_archive(book, to)
    if broken:
        found = _("damaged parts of {tables}").format(tables=", ".join(broken))
        problem = Problem(str(to), None, "", found, _("whole tables"), _("the rest was written"))
        complain([problem])
    data(_("Written to {file}.").format(file=to))
    return Exit.FAULTS if broken else Exit.DONE


def restore(journal: Path | None, archive: Path) -> int:
    """Make a journal of an archive."""
    with opened(journal) as book:
        rows = read_archive(book, archive)
    said = ngettext("{count} row restored to {file}.", "{count} rows restored to {file}.", rows)
    data(said.format(count=rows, file=book.path))
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
            data(_("{file}: taken in as a case of {plant}.").format(file=file, plant=called))
    return code


def give(journal: Path | None, name: str, to: Path) -> int:
    """Write a plant's latest case as a case file."""
    if to.exists():
        raise BadInputError([Problem(str(to), None, "", _("a file that exists"), _("a new name"))])
    with opened(journal) as book:
        plant = plants.find_plant(book, name)
        found = cases.cases_of(book, plant.id)
        if not found:
            raise BadInputError([no_case(plant)])
        write_case(to, cases.read_case_record(book, found[-1], today()))
    data(_("Written to {file}.").format(file=to))
    return Exit.DONE


def _understood(columns: Columns) -> str:
    lines = [f"  {ours:<7} <- {theirs}" for ours, theirs in columns.of.items()]
    dates = _("dates with slashes: {order}").format(order=_(columns.dates))
    return "\n".join([_("Columns as understood:"), *lines, f"  {dates}"])


def _read(rows: Sequence[CountRow], plants: int, left_out: int) -> str:
    counts = ngettext("{count} count", "{count} counts", len(rows)).format(count=len(rows))
    of = ngettext("{count} plant", "{count} plants", plants).format(count=plants)
    out = ngettext("{count} row left out", "{count} rows left out", left_out).format(count=left_out)
    said = (
        _("{counts} of {plants}; {left_out}.") if left_out else _("{counts} of {plants}; no rows left out.")
    )
    return said.format(counts=counts, plants=of, left_out=out)


def _text(file: Path) -> str:
    try:
        if file.stat().st_size > _MOST_BYTES:
            raise BadInputError(
                [Problem(str(file), None, "", _("more than 100 MB"), _("a smaller table"), _("split it"))]
            )
        return file.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise BadInputError([Problem(str(file), None, "", refusal(error), _("a CSV file"))]) from None
    except UnicodeDecodeError as error:
        found = _("a byte that is not UTF-8 at {place}").format(place=error.start)
        raise BadInputError(
            [Problem(str(file), None, "", found, _("UTF-8 text"), _("save it as UTF-8"))]
        ) from None
