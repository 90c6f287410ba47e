"""Does the leaf history add up? What contradicts itself is reported and left out; the rest is used."""

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import TypeVar

from diagnose.case import Case, Leaf, LeafCount
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
    days, _ = _counting_days(case)
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
    told = [f"{_leaves(before.present)} on {before.date}"]
    told += [f"{new} new"] if new is not None else []
    told += [f"{lost} lost"] if lost is not None else []
    found = ", ".join(told) + f", and {_leaves(after.present)} on {after.date}"
    if new is not None and lost is not None:
        expected = before.present + new - lost
        fits = expected == after.present
        sentence = (
            f"{_leaves(expected)} on {after.date}" if expected >= 0 else "no more leaves lost than there were"
        )
    elif new is not None:
        fits = after.present <= before.present + new
        sentence = f"at most {_leaves(before.present + new)} on {after.date}"
    else:
        least = max(0, before.present - (lost or 0))
        fits = after.present >= before.present - (lost or 0)
        sentence = f"at least {_leaves(least)} on {after.date}"
    if fits:
        return []
    mend = "correct one of these numbers; until then what opened and fell between the two dates is left out"
    return [Problem(None, None, f"leaf_history row {after.row}", found, sentence, mend, _CHECK)]


def _order_problems(rows: list[tuple[int, LeafCount]]) -> Iterator[Problem]:
    for (_, before), (row, after) in pairwise(rows):
        if after.date < before.date:
            yield Problem(
                None,
                None,
                f"leaf_history row {row}",
                f"{after.date} after {before.date}",
                "counts in order of date",
                "check the date; the counts are read in order of their dates",
                _CHECK,
            )


def _is_too_old(day: dt.date, date: dt.date) -> bool:
    return (date - day).days > _LONGEST_D


def _is_usable(day: dt.date, date: dt.date) -> bool:
    return day <= date and not _is_too_old(day, date)


def _misdated(row: int, count: LeafCount, date: dt.date) -> Problem:
    expected = "one of the 50 years up to" if count.date <= date else "none after"
    return Problem(
        None,
        None,
        f"leaf_history row {row}",
        f"a count on {count.date}",
        f"{expected} the case's date, {date}",
        "correct one of the two dates; until then this count is left out",
        _CHECK,
    )


def _same_day(same_day: list[tuple[int, LeafCount]]) -> Problem:
    date = same_day[0][1].date
    rows = " and ".join(str(row) for row, _ in same_day)
    if len({count for _, count in same_day}) == 1:
        mend = "delete one; it is used once"
    else:
        mend = "keep the right one; until then only what they agree on is used"
    return Problem(
        None, None, f"leaf_history rows {rows}", f"{len(same_day)} counts on {date}", "one", mend, _CHECK
    )


def _leaf_problems(row: int, leaf: Leaf, date: dt.date) -> Iterator[Problem]:
    key = f"leaves row {row}"
    if leaf.opened and leaf.lost and leaf.lost < leaf.opened:
        found = f"a leaf lost on {leaf.lost} that opened on {leaf.opened}"
        mend = "correct one of the two dates; until then this leaf is left out"
        yield Problem(None, None, key, found, "a loss on or after the opening", mend, _CHECK)
    elif any(day and _is_too_old(day, date) for day in (leaf.opened, leaf.lost)):
        found = f"a date over 50 years before {date}, the case's date"
        mend = "correct one of the dates; until then this leaf is left out"
        yield Problem(None, None, key, found, "one of the last 50 years", mend, _CHECK)
    elif leaf.opened and leaf.opened > date:
        mend = "correct one of the two dates; until then this leaf is left out"
        yield Problem(
            None,
            None,
            key,
            f"a leaf opened on {leaf.opened}",
            f"none after {date}, the case's date",
            mend,
            _CHECK,
        )
    elif leaf.lost and leaf.lost > date:
        mend = "correct one of the two dates; until then the leaf counts as standing"
        yield Problem(
            None,
            None,
            key,
            f"a leaf lost on {leaf.lost}",
            f"none after {date}, the case's date",
            mend,
            _CHECK,
        )


def _numbered(rows: Iterable[_T]) -> Iterator[tuple[int, _T]]:
    return enumerate(rows, start=1)


def _leaves(count: int) -> str:
    return f"{count} leaf" if count == 1 else f"{count} leaves"
