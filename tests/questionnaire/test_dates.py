"""Dates as people type them."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.questionnaire.dates import read_date

TODAY = dt.date(2026, 11, 25)


@pytest.mark.parametrize(
    ("text", "date"),
    [
        ("2026-03-04", "2026-03-04"),
        ("4.3.2026", "2026-03-04"),
        ("today", "2026-11-25"),
        ("Yesterday", "2026-11-24"),
        ("3 weeks ago", "2026-11-04"),
        ("about 3 weeks ago", "2026-11-04"),
        ("a fortnight ago", "2026-11-11"),
        ("a couple of weeks ago", "2026-11-11"),
        ("2w", "2026-11-11"),
        ("last week", "2026-11-18"),
        ("early May", "2026-05-05"),
        ("12 March", "2026-03-12"),
        ("15 Jan 2025", "2025-01-15"),
        ("in december", "2025-12-15"),
        ("last spring", "2026-04-15"),
        ("late summer 2024", "2024-08-15"),
    ],
)
def test_what_people_type(text, date):
    assert read_date(text, TODAY) == dt.date.fromisoformat(date)


def test_seasons_are_turned_round_in_the_south():
    assert read_date("last spring", TODAY, south=True) == dt.date(2026, 10, 15)
    assert read_date("last winter", TODAY, south=True) == dt.date(2026, 7, 15)


@pytest.mark.parametrize(
    "text", ["", "blub", "31 feb", "2026-02-30", "99999999999 years ago", "marchpane", "-3 weeks ago"]
)
def test_what_is_no_date_is_none(text):
    assert read_date(text, TODAY) is None


@given(st.text(max_size=30), st.booleans())
def test_any_text_is_a_date_or_none(text, south):
    found = read_date(text, TODAY, south=south)
    assert found is None or isinstance(found, dt.date)


@given(st.dates(dt.date(1000, 1, 1), dt.date(9999, 12, 31)))
def test_an_iso_date_is_itself(date):
    assert read_date(date.isoformat(), TODAY) == date
