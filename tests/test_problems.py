"""A fault is one sentence: quotes that close, one full stop, values as they stand in a file."""

import datetime as dt
import errno
import os

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.language import SOURCE, speak
from diagnose.problems import Problem, nearest, refusal, shown

LINE = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=20)


@pytest.mark.parametrize(
    ("problem", "english", "german"),
    [
        (
            Problem("case.toml", 3, "date", "nothing", "'date'", "add it"),
            "case.toml, line 3, date: found nothing, expected 'date'; add it.",
            "case.toml, Zeile 3, date: gefunden: nothing, erwartet: 'date'; add it.",
        ),
        (Problem(None, None, "", "a", "b"), "found a, expected b.", "gefunden: a, erwartet: b."),
        (
            Problem(None, None, "x", "a", "b", "is a comma missing?"),
            "x: found a, expected b; is a comma missing?",
            "x: gefunden: a, erwartet: b; is a comma missing?",
        ),
        (Problem(None, 2, "", "a", "b such as c."), "line 2: found a, expected b such as c.", None),
    ],
)
def test_a_fault_is_one_sentence(problem, english, german):
    assert problem.sentence() == english
    speak("de")
    assert german in (None, problem.sentence())


@given(LINE, LINE, LINE | st.just(""))
def test_a_sentence_ends_once(found, expected, mend):
    said = Problem(None, None, "", found, expected, mend).sentence()
    last = mend or expected
    assert said.endswith(last if last[-1] in ".?!" else f"{last}.")


@pytest.mark.parametrize(
    ("value", "english", "german"),
    [
        ("soil", "'soil'", "„soil“"),
        (
            "the plant's",
            '"the plant\'s"',
            "\N{SINGLE LOW-9 QUOTATION MARK}the plant's\N{LEFT SINGLE QUOTATION MARK}",
        ),
        ("two\nlines", r"'two\nlines'", r"„two\nlines“"),
        (True, "true", "true"),
        (1.5, "1.5", "1.5"),  # as it stands in the file
        (dt.date(2026, 1, 31), "2026-01-31", "2026-01-31"),
        (["a", 1, False], "['a', 1, false]", "[„a“, 1, false]"),
        ({"fact": "dim"}, "{ fact = 'dim' }", "{ fact = „dim“ }"),
        ("x" * 99, "'" + "x" * 57 + "...'", "„" + "x" * 57 + "...“"),
        ([1] * 99, "[" + "1, " * 18 + "1,...", None),
        (10**5000, "a number with thousands of digits", "eine Zahl mit Tausenden von Ziffern"),
    ],
    ids=lambda value: type(value).__name__,
)
def test_a_value_is_shown_as_in_a_file_and_quoted_as_in_the_language(value, english, german):
    assert shown(value) == english
    speak("de")
    assert german in (None, shown(value))


@given(st.recursive(st.none() | st.text() | st.integers() | st.floats() | st.dates(), st.lists))
def test_any_value_is_shown_short_and_on_one_line(value):
    for language in (SOURCE, "de"):
        speak(language)
        assert len(shown(value).splitlines()) == 1
        assert len(shown(value)) <= 70 or isinstance(value, str)


def test_the_nearest_word_is_asked_for():
    assert nearest("norht", ["north", "south"]) == "did you mean 'north'"
    assert nearest("xxxx", ["north", "south"]) == ""
    speak("de")
    assert nearest("norht", ["north", "south"]) == "meintest du „north“?"


@pytest.mark.parametrize("number", [errno.EACCES, errno.ENOSPC, errno.EROFS])
def test_a_refusal_is_said_in_the_language_spoken(number):
    error = OSError(number, os.strerror(number))
    english = refusal(error)
    speak("de")
    assert refusal(error) not in (english, error.strerror)
