"""Leaf counts from a CSV table: which column is which is guessed, shown, and only then used."""

import csv
import datetime as dt
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import get_args

from pydantic import ValidationError

from diagnose.case import LeafCount, LeafPosition
from diagnose.language import _, and_listed, marked
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire.dates import read_date

NEEDED = ("plant", "date", "leaves")
OPTIONAL = ("new", "lost", "which", "place", "kind")
_CALLED = {
    "plant": marked("plant|name|plant name|label|id|specimen"),
    "date": marked("date|day|counted on|counted|when|timestamp"),
    "leaves": marked("leaves|present|leaf count|count|total|number of leaves|leaves present"),
    "new": marked("new|opened|new leaves|unfurled|gained"),
    "lost": marked("lost|dropped|fallen|lost leaves|shed"),
    "which": marked("which|lost which|which lost|position"),
    "place": marked("place|location|shelf|room|where|window"),
    "kind": marked("kind|species|genus|cultivar|type"),
}
"""What a column of ours may be called in a table, in English or in the language spoken; likeliest first."""
_DATE_ORDERS = {marked("day first"): (2, 1, 0), marked("month first"): (2, 0, 1)}


@dataclass(frozen=True, slots=True)
class Table:
    """A CSV table as read: header and rows, with the line of each row."""

    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """Which column holds what (our name -> the table's), and in which order dates with slashes are written."""

    of: Mapping[str, str]
    dates: str = "day first"


@dataclass(frozen=True, slots=True)
class CountRow:
    """One row understood."""

    plant: str
    count: LeafCount
    place: str = ""
    kind: str = ""


def read_table(text: str, name: str) -> Table:
    """Return the table of a CSV text; comma, semicolon or tab may part its cells.

    Raises:
        BadInputError: there is no header with rows below it.

    """
    first = text.lstrip("\ufeff").split("\n", 1)[0]
    separator = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text.lstrip("\ufeff"), newline=""), delimiter=separator)
    try:
        lines = [(reader.line_num, tuple(cell.strip() for cell in row)) for row in reader]
    except csv.Error as error:
        raise BadInputError([Problem(name, reader.line_num, "", str(error), _("a CSV table"))]) from None
    lines = [(line, row) for line, row in lines if any(row)]
    if len(lines) < 2:
        raise BadInputError(
            [Problem(name, None, "", _("no rows below a header"), _("a CSV table with a header"))]
        )
    return Table(lines[0][1], tuple(lines[1:]))


def guess_columns(table: Table) -> Columns:
    """Return which column seems to hold what, by the header's words; what has no likely column is left out."""
    plain = {re.sub(r"[\W\d_]+", " ", name.lower()).strip(): name for name in reversed(table.header)}
    called = {ours: [*_(words).split("|"), *words.split("|")] for ours, words in _CALLED.items()}
    of: dict[str, str] = {}
    for exact in (True, False):
        for ours, words in called.items():
            free = {said: name for said, name in plain.items() if name not in of.values()}
            hit = next((free[w] for w in words if w in free), None)
            if hit is None and not exact:
                hit = next(
                    (name for said, name in free.items() if any(w in said.split() for w in words)), None
                )
            if hit is not None and ours not in of:
                of[ours] = hit
    return Columns({ours: of[ours] for ours in _CALLED if ours in of}, _date_order(table, of.get("date")))


def chosen_columns(table: Table, told: str) -> Columns:
    """Return the guess with what was told instead, such as `plant=Name,date=Counted`.

    Raises:
        BadInputError: a name is neither ours nor the table's.

    """
    guess = guess_columns(table)
    of = dict(guess.of)
    for part in filter(None, (part.strip() for part in told.split(","))):
        ours, _sign, theirs = (word.strip() for word in part.partition("="))
        if ours not in _CALLED:
            expected = _("one of {known}, then = and the table's name").format(known=", ".join(_CALLED))
            raise BadInputError(
                [Problem(None, None, "--columns", shown(part), expected, nearest(ours, _CALLED))]
            )
        if theirs and theirs not in table.header:
            expected = _("one of {known}").format(known=", ".join(table.header))
            raise BadInputError(
                [Problem(None, None, "--columns", shown(theirs), expected, nearest(theirs, table.header))]
            )
        of.pop(ours, None)
        if theirs:
            of[ours] = theirs
    return Columns(of, _date_order(table, of.get("date")))


def read_rows(
    table: Table, columns: Columns, today: dt.date, name: str
) -> tuple[tuple[CountRow, ...], tuple[Problem, ...]]:
    """Return the rows that can be used, and one fault for each that cannot.

    Raises:
        BadInputError: no column holds the plant, the date or the leaves.

    """
    missing = [ours for ours in NEEDED if ours not in columns.of]
    if missing:
        found = _("no column for {names}").format(names=and_listed(missing))
        mend = _("say which with --columns {first}=NAME; the table has {names}").format(
            first=missing[0], names=", ".join(table.header)
        )
        raise BadInputError([Problem(name, 1, "", found, _("a column for each"), mend)])
    place = {ours: table.header.index(theirs) for ours, theirs in columns.of.items()}
    rows: list[CountRow] = []
    problems: list[Problem] = []
    for line, cells in table.rows:
        told = {ours: cells[at] if at < len(cells) else "" for ours, at in place.items()}
        try:
            rows.append(_row(told, columns, today))
        except ValueError as error:
            found, expected = error.args
            problems.append(Problem(name, line, "", found, expected, _("mend it; the other rows are used")))
    return tuple(rows), tuple(problems)


def _row(told: Mapping[str, str], columns: Columns, today: dt.date) -> CountRow:
    if not told["plant"]:
        raise ValueError(_("no plant"), _("the plant's name"))
    date = _date(told["date"], columns.dates, today)
    if date is None or date > today:
        raise ValueError(
            _("the date {text}").format(text=shown(told["date"])),
            _("a date not after {day}, such as 2026-03-01").format(day=today),
        )
    which = told.get("which", "").lower()
    if which not in ("", *get_args(LeafPosition)):
        raise ValueError(shown(which), _("oldest, middle or newest"))
    numbers = {
        ours: _number(told.get(column, ""), column)
        for ours, column in (("present", "leaves"), ("new", "new"), ("lost", "lost"))
    }
    if numbers["present"] is None:
        raise ValueError(_("no number of leaves"), _("a whole number from 0 to 5000"))
    try:
        count = LeafCount.model_validate({"date": date, "lost_which": which or None, **numbers})
    except ValidationError:
        raise ValueError(
            _("{present} leaves, {new} new, {lost} lost").format(
                **{name: number or 0 for name, number in numbers.items()}
            ),
            _("at most 5,000 leaves, 1,000 new and 1,000 lost"),
        ) from None
    return CountRow(told["plant"], count, told.get("place", ""), told.get("kind", ""))


def _number(text: str, what: str) -> int | None:
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        raise _no_whole_number(text, what) from None
    if not value.is_integer():  # nor are infinity and "nan"
        raise _no_whole_number(text, what)
    return int(value)


def _no_whole_number(text: str, what: str) -> ValueError:
    return ValueError(_("{text} under {column}").format(text=shown(text), column=what), _("a whole number"))


def _date(text: str, order: str, today: dt.date) -> dt.date | None:
    text = re.sub(r"[T ]\d{1,2}:\d{2}.*$", "", text)
    if match := re.fullmatch(r"(\d{1,2})/(\d{1,2})/(\d{4})", text):
        year, month, day = (int(match[place + 1]) for place in _DATE_ORDERS[order])
        try:
            return dt.date(year, month, day)
        except ValueError:
            return None
    return read_date(text, today)


def _date_order(table: Table, column: str | None) -> str:
    """With slashes, the number that exceeds 12 anywhere must be the day; if none does, the day is taken as first."""
    if column is None:
        return "day first"
    at = table.header.index(column)
    cells: Sequence[str] = [cells[at] for _, cells in table.rows if at < len(cells)]
    second = [int(m[2]) for cell in cells if (m := re.match(r"(\d{1,2})/(\d{1,2})/\d{4}", cell))]
    return "month first" if any(number > 12 for number in second) else "day first"
