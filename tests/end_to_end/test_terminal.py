"""The real command in a real terminal: keys in, screen out, and nothing lost when the terminal goes."""

import datetime as dt
import os
import re
import signal

import pytest
import tomli

from diagnose import locations
from terminal import Terminal

pytestmark = pytest.mark.terminal

SIZES = [(80, 24), (160, 45)]
COLOUR = re.compile(r"\x1b\[[0-9;]*\b(3[0-7]|4[0-7]|9[0-7]|10[0-7]|38;|48;)")


@pytest.fixture
def terminal():
    with Terminal() as one:
        yield one


def kept():
    """The one case that is on disk."""
    (path,) = locations.user_cases().glob("*.toml")
    return tomli.loads(path.read_text(encoding="utf-8"))


def begin(terminal):
    terminal.see("Start a new case", "rules weigh the evidence")
    terminal.press("n")
    terminal.asked("What kind of plant is it?")
    terminal.type("alocasia")
    terminal.see("Alocasia (elephant ear)")
    terminal.press("Enter")
    terminal.asked("Which town or city", "1 of ")


def answer_some(terminal):
    """Answer by typing, number, arrows and letter."""
    begin(terminal)
    terminal.press("F4")
    terminal.asked("When did the plant come to your home?")
    terminal.type("3 weeks ago")
    terminal.see("that is")
    terminal.press("Enter")
    terminal.asked("Where did it come from?")
    terminal.press("3")
    terminal.asked("How firm is the foot of the plant")
    terminal.press("b")
    terminal.asked("Are plants that stand nearby losing leaves too?")
    terminal.press("Enter")
    terminal.see("No row is marked yet")
    terminal.press("Down")
    terminal.press("Down")
    terminal.press("Enter")
    terminal.asked("How many plants share the pot?")


ANSWERED = {"came_from": "post", "stem_base": "soft", "neighbours_affected": "same_kind"}


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_from_the_first_screen_to_the_reasons_and_out(columns, rows):
    with Terminal(columns, rows) as terminal:
        terminal.start()
        answer_some(terminal)
        case = kept()
        assert case["plant"]["profile"] == "alocasia"
        assert case["answers"] == ANSWERED | {"days_since_brought_home": case["date"] - dt.timedelta(weeks=3)}
        assert case["not_known"] == ["place"]
        terminal.press("0")
        terminal.asked("Which leaves does it lose?", "7 of ")
        assert kept()["not_known"] == ["place", "plants_in_pot"]
        terminal.press("F9")
        terminal.asked("How many plants share the pot?", "6 of ")
        assert kept()["not_known"] == ["place"]
        screen = terminal.see("So far", "%")
        assert re.search(r"\b1  \S.* \d+\s%", screen), screen
        terminal.press("F8")
        terminal.see("Ranking and reasons", "%")
        terminal.press("Escape")
        terminal.asked("How many plants share the pot?")
        terminal.press("F10")
        terminal.see("left with 0")


def test_a_key_too_many_never_answers_another_question(terminal, base):
    terminal.start()
    begin(terminal)
    terminal.press("F4")
    terminal.asked("When did the plant come to your home?")
    terminal.press("F4")
    terminal.asked("Where did it come from?")
    terminal.press("4", "1", "1")  # at once, faster than the screen
    terminal.gone("Where did it come from?")
    terminal.press("F10")
    terminal.see("left with 0")
    answers = kept()["answers"]
    assert answers["came_from"] == "home"
    for question, answer in answers.items():
        assert answer in [choice.id for choice in base.questions[question].choices], question


def test_a_demo_case_shows_its_ranking_at_once(terminal):
    terminal.start("open", locations.demo_cases() / "soggy_after_the_big_pot.toml")
    terminal.see("of ", "So far")
    terminal.press("F8")
    terminal.see("Ranking and reasons", "1  Rotting roots", "%")
    terminal.press("F10")
    terminal.see("left with 0")
    assert not locations.user_cases().exists(), "looking at an example writes nothing"


@pytest.mark.parametrize("end", ["the terminal goes", "the process is killed"])
def test_a_case_goes_on_where_it_was_cut_off(end):
    with Terminal() as terminal:
        terminal.start()
        answer_some(terminal)
        before = kept()
        if end == "the process is killed":
            os.kill(terminal.process(), signal.SIGKILL)
            terminal.see("left with 137")
    assert kept() == before
    with Terminal() as terminal:
        terminal.start()
        terminal.see("Your cases, last changed first", "rules weigh the evidence")
        terminal.press("Down", "Down", "Enter")
        terminal.asked("How many plants share the pot?", "6 of ")
        terminal.press("Left")
        terminal.asked(
            "Are plants that stand nearby losing leaves too?", "only plants of the same kind   your answer"
        )
        terminal.press("F10")
        terminal.see("left with 0")
    assert kept() == before


def first_questions(terminal):
    """Go by function keys alone, which need no colour to know when a field is ready."""
    terminal.see("Start a new case", "rules weigh the evidence")
    terminal.press("n")
    terminal.see("What kind of plant is it?")
    terminal.press("F4")
    terminal.see("Which town or city", "1 of ")
    terminal.press("F9")
    terminal.see("What kind of plant is it?", "0 of ")


def test_no_color_shows_none(terminal):
    terminal.start(NO_COLOR="1")
    first_questions(terminal)
    assert not COLOUR.search(terminal.screen(styled=True))


def test_colour_shows_otherwise(terminal):
    terminal.start()
    first_questions(terminal)
    assert COLOUR.search(terminal.screen(styled=True))


@pytest.mark.parametrize("name", ["dumb", "xterm", "vt100", "tmux-256color"])
def test_any_kind_of_terminal_will_do(terminal, name):
    terminal.start(TERM=name, COLORTERM="")
    first_questions(terminal)
    terminal.press("F10")
    terminal.see("left with 0")


HOSTILE = [
    "[bold red]x[/bold red]",
    "[/]",
    "{{7*7}} {0.__class__} %s%n $(id)",
    "1e999",
    "nan",
    "99999999999999999999999 weeks ago",
    "31 february",
    "\u202e\u0301\u200bweeks \U0001fab4",
    "9" * 30,
]


def test_odd_words_in_a_field_are_no_answer_and_no_harm(terminal):
    terminal.start()
    begin(terminal)
    terminal.press("F4")
    terminal.asked("When did the plant come to your home?")
    for text in HOSTILE:
        terminal.type(text)
        terminal.see(text if text.isascii() else "weeks")
        terminal.press("Enter")
        terminal.see("Please type a date", "2 of ")
        terminal.press("C-u")
        terminal.gone("Please type a date")
    assert "answers" not in kept()
    terminal.type("3 weeks ago")
    terminal.see("that is")
    terminal.press("Enter")
    terminal.asked("Where did it come from?")


def test_pasted_control_characters_are_only_text(terminal):
    terminal.start()
    begin(terminal)
    terminal.paste("Oslo\x1b[2J\x1b]0;owned\x07\x00\nrm -rf /\n\x03")
    terminal.asked("Which town or city", "1 of ")
    assert "place" not in kept()


def test_a_case_name_is_never_markup(terminal):
    name = "[red]Juniper[/red] [link=x]"
    terminal.start("open", locations.demo_cases() / "soggy_after_the_big_pot.toml")
    terminal.see("So far")
    terminal.press("F8")
    terminal.see("Ranking and reasons")
    terminal.press("n")
    terminal.see("Name of this case")
    terminal.press("C-u")
    terminal.see("such as Juniper")
    terminal.type(name)
    terminal.see(name)
    terminal.press("Enter")
    terminal.gone("Name of this case")
    terminal.see(name, "Ranking and reasons")
    assert kept()["title"] == name
