"""Does the leaf history add up? What contradicts itself is reported and left out; the rest is used."""

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import TypeVar

from diagnose.case import Case, Leaf, LeafCount
from diagnose.language import _, and_listed, ngettext, pgettext
from diagnose.measures.leaves.history import History, Stretch, from_leaves
from diagnose.problems import Problem

_CHECK = "leaf_history"
_LONGEST_D = 18262  # nobody counts leaves for over 50 years: such a date is a slip of the pen
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class _Day:
    """What is known of one counting day; `present` is None where two counts contradict each other."""

    row: int
    date: dt.date
    present: int | None
    count: LeafCount


def inconsistencies(case: Case) -> tuple[Problem, ...]:
    """Return each contradiction in the dated counts and the single leaves as one clear sentence."""
    days, problems = _counting_days(case)
    for before, after in pairwise(days):
        problems += _sum_problems(before, after)
    problems += [problem for leaf in _numbered(case.leaves) for problem in _leaf_problems(*leaf, case.date)]
    return tuple(problems)


def cleaned_history(case: Case) -> History:
    """Return the dated counts without what contradicts itself, missing numbers derived where they can be."""
    days = _counting_days(case)[0]
    stretches = tuple(_stretch(before, after) for before, after in pairwise(days))
    return History(stretches, tuple((d.date, d.present) for d in days if d.present is not None))


def cleaned_leaves(case: Case) -> tuple[Leaf, ...]:
    """Return the single leaves that make sense; a loss after the case's date counts as none yet."""
    kept = []
    for leaf in case.leaves:
        dates = [day for day in (leaf.opened, leaf.lost) if day]
        if dates != sorted(dates) or any(_is_too_old(day, case.date) for day in dates):
            continue
        if leaf.opened and leaf.opened > case.date:
            continue
        kept.append(
            leaf if not leaf.lost or leaf.lost <= case.date else leaf.model_copy(update={"lost": None})
        )
    return tuple(kept)


def followed(case: Case) -> History:
    """Return the history to compute with: the dated counts, or the single leaves where counts are too few."""
    counts = cleaned_history(case)
    if counts.stretches:
        return counts
    return replace(from_leaves(cleaned_leaves(case), case.date), present=counts.present)


def _counting_days(case: Case) -> tuple[list[_Day], list[Problem]]:
    """Return the counting days in order, and what was wrong with their dates."""
    rows = list(_numbered(case.leaf_history))
    problems = list(_order_problems(rows)) + [
        _misdated(row, c, case.date) for row, c in rows if not _is_usable(c.date, case.date)
    ]
    usable = sorted(
        ((row, c) for row, c in rows if _is_usable(c.date, case.date)),
        key=lambda pair: (pair[1].date, pair[0]),
    )
    days = []
    for date, group in groupby(usable, key=lambda pair: pair[1].date):
        same_day = list(group)
        row, count = same_day[0]
        present: int | None = count.present
        if len(same_day) > 1:
            problems.append(_same_day(same_day))
            present = count.present if len({c.present for _, c in same_day}) == 1 else None
            if len({c for _, c in same_day}) > 1:
                count = LeafCount(date=date, present=count.present)
        days.append(_Day(row, date, present, count))
    return days, problems


def _stretch(before: _Day, after: _Day) -> Stretch:
    new, lost, which = after.count.new, after.count.lost, after.count.lost_which
    if before.present is None or after.present is None or _sum_problems(before, after):
        # Not even the numbers given can be trusted: they count from a day that is itself in doubt.
        new = lost = which = None
    elif new is None and lost is not None:
        new = after.present - before.present + lost
    elif lost is None and new is not None:
        lost = before.present + new - after.present
    return Stretch(before.date, after.date, new, lost, before.present, after.present, which)


def _sum_problems(before: _Day, after: _Day) -> list[Problem]:
    """Return the fault if present, new and lost leaves of two counts do not add up."""
    new, lost = after.count.new, after.count.lost
    if before.present is None or after.present is None or (new is None and lost is None):
        return []
    found = _("{before}, and {after}").format(
        before=", ".join(_told(before, new, lost)), after=_leaves_on(after.present, after.date)
    )
    if new is not None and lost is not None:
        expected = before.present + new - lost
        fits = expected == after.present
        sentence = (
            _leaves_on(expected, after.date) if expected >= 0 else _("no more leaves lost than there were")
        )
    elif new is not None:
        fits = after.present <= before.present + new
        sentence = _("at most {leaves}").format(leaves=_leaves_on(before.present + new, after.date))
    else:
        least = max(0, before.present - (lost or 0))
        fits = after.present >= before.present - (lost or 0)
        sentence = _("at least {leaves}").format(leaves=_leaves_on(least, after.date))
    if fits:
        return []
    mend = _(
        "correct one of these numbers; until then what opened and fell between the two dates is left out"
    )
    return [Problem(None, None, _row("leaf_history", after.row), found, sentence, mend, _CHECK)]


def _order_problems(rows: list[tuple[int, LeafCount]]) -> Iterator[Problem]:
    for (_row_before, before), (row, after) in pairwise(rows):
        if after.date < before.date:
            yield Problem(
                None,
                None,
                _row("leaf_history", row),
                _("{later} after {earlier}").format(later=after.date, earlier=before.date),
                _("counts in order of date"),
                _("check the date; the counts are read in order of their dates"),
                _CHECK,
            )


def _is_too_old(day: dt.date, date: dt.date) -> bool:
    return (date - day).days > _LONGEST_D


def _is_usable(day: dt.date, date: dt.date) -> bool:
    return day <= date and not _is_too_old(day, date)


def _misdated(row: int, count: LeafCount, date: dt.date) -> Problem:
    expected = (
        _("one of the 50 years up to the case's date, {date}")
        if count.date <= date
        else _("none after the case's date, {date}")
    )
    return Problem(
        None,
        None,
        _row("leaf_history", row),
        _("a count on {date}").format(date=count.date),
        expected.format(date=date),
        _("correct one of the two dates; until then this count is left out"),
        _CHECK,
    )


def _same_day(same_day: list[tuple[int, LeafCount]]) -> Problem:
    date = same_day[0][1].date
    rows = _("leaf_history rows {rows}").format(rows=and_listed([str(row) for row, _count in same_day]))
    if len({count for _row, count in same_day}) == 1:
        mend = _("delete one; it is used once")
    else:
        mend = _("keep the right one; until then only what they agree on is used")
    found = _("{count} counts on {date}").format(count=len(same_day), date=date)
    return Problem(None, None, rows, found, pgettext("one count", "one"), mend, _CHECK)


def _leaf_problems(row: int, leaf: Leaf, date: dt.date) -> Iterator[Problem]:
    key = _row("leaves", row)
    if leaf.opened and leaf.lost and leaf.lost < leaf.opened:
        found = _("a leaf lost on {lost} that opened on {opened}").format(lost=leaf.lost, opened=leaf.opened)
        mend = _("correct one of the two dates; until then this leaf is left out")
        yield Problem(None, None, key, found, _("a loss on or after the opening"), mend, _CHECK)
    elif any(day and _is_too_old(day, date) for day in (leaf.opened, leaf.lost)):
        found = _("a date over 50 years before {date}, the case's date").format(date=date)
        mend = _("correct one of the dates; until then this leaf is left out")
        yield Problem(None, None, key, found, _("one of the last 50 years"), mend, _CHECK)
    elif leaf.opened and leaf.opened > date:
        found = _("a leaf opened on {date}").format(date=leaf.opened)
        mend = _("correct one of the two dates; until then this leaf is left out")
        yield Problem(None, None, key, found, _none_after(date), mend, _CHECK)
    elif leaf.lost and leaf.lost > date:
        found = _("a leaf lost on {date}").format(date=leaf.lost)
        mend = _("correct one of the two dates; until then the leaf counts as standing")
        yield Problem(None, None, key, found, _none_after(date), mend, _CHECK)


def _numbered(rows: Iterable[_T]) -> Iterator[tuple[int, _T]]:
    return enumerate(rows, start=1)


def _told(before: _Day, new: int | None, lost: int | None) -> Iterator[str]:
    yield _leaves_on(before.present or 0, before.date)
    if new is not None:
        yield _("{count} new").format(count=new)
    if lost is not None:
        yield _("{count} lost").format(count=lost)


def _none_after(date: dt.date) -> str:
    return _("none after {date}, the case's date").format(date=date)


def _row(table: str, row: int) -> str:
    return _("{table} row {number}").format(table=table, number=row)


def _leaves_on(count: int, date: dt.date) -> str:
    return ngettext("{count} leaf on {date}", "{count} leaves on {date}", count).format(
        count=count, date=date
    )
