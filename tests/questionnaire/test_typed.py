"""What is typed becomes an answer of the question's kind, or a sentence on what would be taken."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.questionnaire import TypedError, read_typed
from diagnose.questionnaire.table import read_leaf_table
from diagnose.questionnaire.units import read_number, to_shown
from diagnose.rulebase.model import Question

TODAY = dt.date(2026, 11, 25)


def question(kind, **more):
    return Question.model_validate(
        {
            "id": "q",
            "subject": "s",
            "text": "What is it?",
            "help": "Look.",
            "why": "It tells.",
            "kind": kind,
            "effort": "look",
            **more,
        }
    )


CHOICE = question("choice", choices=[{"id": "north", "label": "north"}, {"id": "none", "label": "no window"}])
NUMBER = question("number", unit="°C", least=0, most=50)


@pytest.mark.parametrize(
    ("asked", "text", "answer"),
    [
        (CHOICE, "1", "north"),
        (CHOICE, "b", "none"),
        (CHOICE, "no window", "none"),
        (CHOICE, "North", "north"),
        (question("yes_no"), "y", "yes"),
        (question("yes_no"), "2", "no"),
        (
            question("several", choices=[{"id": "a", "label": "web"}, {"id": "b", "label": "specks"}]),
            "2, 1",
            ("b", "a"),
        ),
        (
            question("several", choices=[{"id": "a", "label": "web"}, {"id": "b", "label": "specks"}]),
            "none",
            (),
        ),
        (NUMBER, "21", 21),
        (NUMBER, "21,5", 21.5),
        (NUMBER, "70 F", 21.1111),
        (question("number", unit="cm", least=3, most=100), "10 in", 25.4),
        (question("date"), "last week", dt.date(2026, 11, 18)),
    ],
)
def test_what_is_taken(asked, text, answer):
    assert read_typed(asked, text, TODAY) == answer


@pytest.mark.parametrize(
    ("asked", "text", "sentence"),
    [
        (CHOICE, "3", "Please choose 1 to 2."),
        (CHOICE, "", "Please choose 1 to 2."),
        (CHOICE, "norht", "did you mean 'north'"),
        (NUMBER, "warm", "Please type a number from 0 to 50 °C."),
        (NUMBER, "70", "That was 70.0; please give a number from 0 to 50 °C."),
        (question("date"), "soon", "Please type a date"),
        (question("date"), "2027-01-01", "a date not after the case's date"),
    ],
)
def test_what_is_refused_says_what_would_be_taken(asked, text, sentence):
    with pytest.raises(TypedError) as caught:
        read_typed(asked, text, TODAY)
    assert sentence in str(caught.value)


def test_imperial_numbers_are_asked_and_stored_metric():
    assert read_number("12", "cm", "imperial") == pytest.approx(30.48)  # 1 in = 2.54 cm by definition
    assert read_number("68", "°C", "imperial") == pytest.approx(20)
    assert to_shown(20, "°C", "imperial") == pytest.approx(68)


@given(st.sampled_from([CHOICE, NUMBER, question("yes_no"), question("date")]), st.text(max_size=12))
def test_any_text_is_an_answer_or_a_sentence(asked, text):
    try:
        read_typed(asked, text, TODAY)
    except TypedError as error:
        assert str(error)


def test_leaf_counts_are_read_line_by_line():
    rows = read_leaf_table("3 weeks ago: 5 leaves 1 new 0 lost\n2026-03-01 6 1 2 oldest\n", TODAY)
    assert [(row.date, row.present, row.new, row.lost, row.lost_which) for row in rows] == [
        (dt.date(2026, 3, 1), 6, 1, 2, "oldest"),
        (dt.date(2026, 11, 4), 5, 1, 0, None),
    ]


@pytest.mark.parametrize("line", ["five leaves", "2027-01-01 5", "2026-01-01", "2026-01-01 99999"])
def test_a_line_that_cannot_be_read_is_named(line):
    with pytest.raises(TypedError, match=line.split(maxsplit=1)[0]):
        read_leaf_table(line, TODAY)
