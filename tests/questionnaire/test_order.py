"""The next open question, by subject or the most telling first."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.questionnaire.order import next_open
from diagnose.questionnaire.outline import Item
from diagnose.rulebase.model import Question


def items(**states):
    """Return items with these states, in this order."""
    made = []
    for name, state in states.items():
        question = Question(
            id=name, subject="s", kind="yes_no", effort="look", text="Is it?", help="Look.", why="It tells."
        )
        made.append(Item(question, state.replace("_", " ")))
    return made


@pytest.mark.parametrize(
    ("current", "telling", "expected"),
    [
        (None, (), "b"),
        ("b", (), "d"),
        ("d", (), "e"),
        ("e", (), "b"),  # then from the start
        ("b", ("e", "d"), "e"),
        ("e", ("e", "d"), "d"),  # never the one just shown, if another is open
        (None, ("a", "c"), "b"),  # an order of a moment ago: those are no longer open
        ("b", ("gone",), "d"),
    ],
)
def test_next(current, telling, expected):
    asked = items(a="answered", b="open", c="not_known", d="open", e="open", f="skipped")
    assert next_open(asked, current, telling) == expected


def test_nothing_open_is_the_end():
    assert next_open(items(a="answered", b="skipped"), "a", ("b",)) is None


@given(
    st.lists(st.sampled_from(["open", "answered", "not_known", "skipped"]), min_size=1, max_size=8), st.data()
)
def test_every_open_question_is_reached_once_whatever_the_order(states, data):
    names = [f"ask_{n}" for n in range(len(states))]
    held = dict(zip(names, states, strict=True))
    telling = data.draw(st.lists(st.sampled_from(names), unique=True))
    current, reached = None, []
    while (current := next_open(items(**held), current, telling)) is not None:
        reached.append(current)
        held[current] = "answered"
    assert sorted(reached) == [name for name, state in zip(names, states, strict=True) if state == "open"]
