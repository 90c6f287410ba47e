"""The ranking with its reasons, and the ways on from it."""

import pytest

from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.review import ReviewScreen
from diagnose.screens.sections.ledger import ANSWER, signed_bar
from looking import shows, text_of, until

ANSWERS = {
    "drooping": "whole_plant",
    "medium_when_drooping": "wet",
    "standing_water": True,
    "night_low_c": 17.0,
}


@pytest.fixture
def case(saved):
    return saved(title="Wet feet", answers=ANSWERS)


async def review(pilot):
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    await pilot.press("f8")
    await until(pilot, lambda: isinstance(pilot.app.screen, ReviewScreen))
    await pilot.pause()


@pytest.mark.parametrize("size", [(80, 24), (120, 36), (160, 45)])
async def test_verdict_ranking_and_ledger(make_app, case, size):
    async with make_app(case).run_test(size=size) as pilot:
        await review(pilot)
        await shows(pilot, "Rotting roots is very likely (97 %).", "Too cold at night", "at first", "+12.5")
        await shows(pilot, "It droops although")


async def test_the_score_is_the_sum_of_the_lines_shown(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        await shows(pilot, "in all")
        rows = text_of(pilot.app).splitlines()
        said = [row.split("│", 1)[1].split() for row in rows if "├" in row or "┤" in row]
        total = next(row.split("in all")[1].split()[0] for row in rows if "in all" in row)
        numbers = [
            float(word)
            for words in said
            for word in words
            if word[0] in "+-" and word[1:].replace(".", "").isdigit()
        ]
        assert sum(numbers) == float(total) == 15


async def test_a_line_opens_down_to_the_answers_and_one_key_goes_to_the_question(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        await pilot.press("tab", "down", "enter")
        await shows(
            pilot,
            f"{ANSWER} Does the plant droop? the whole plant (you answered)",
            "rule wilts_wet; from common practice",
        )
        await pilot.press("down", "enter")
        await shows(pilot, "Does the plant droop?", "the whole plant   your answer")


async def test_findings_stand_between_line_and_answer(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        await pilot.press("o")
        await shows(
            pilot,
            "- the roots stand wet: Water stands in the saucer.",
            f"{ANSWER} Does water stand in the saucer? yes",
        )
        await pilot.press("o")
        await until(pilot, lambda: f"{ANSWER} Does water" not in text_of(pilot.app))


async def test_what_speaks_against_is_said_in_words(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        await pilot.press("down")
        await shows(pilot, "against     -5", "Water stands in the saucer")
        await pilot.press("down")
        await shows(pilot, "against     -5", "Nights stay at 17 °C.")


async def test_pages_by_arrow(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        await pilot.press("right")
        await shows(pilot, "What settles it", "Lift it out of the pot")
        await pilot.press("left")
        await shows(pilot, "at first", "in all")


async def test_pages_by_mouse(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        (title,) = [one for one in pilot.app.screen.query("PageTitle") if one.page == "about"]
        await pilot.click(title)
        await shows(pilot, "What settles it")


async def test_back_is_the_question_one_came_from(make_app, case):
    async with make_app(case).run_test(size=(80, 24)) as pilot:
        await review(pilot)
        await pilot.press("escape")
        await shows(pilot, "What kind of plant is it?")


async def test_the_rules_behind_a_cause(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot)
        await pilot.press("r")
        await shows(pilot, "cause root_rot", "Roots without air die and rot.")
        await pilot.press("escape")
        await shows(pilot, "Ranking and reasons")


async def test_the_case_is_named(make_app, case):
    async with make_app(case).run_test(size=(80, 24)) as pilot:
        await review(pilot)
        await pilot.press("n")
        await shows(pilot, "Name of this case")
        await pilot.press("end", "x", "enter")
        await shows(pilot, "Wet feetx")


@pytest.mark.parametrize(
    ("value", "bar"),
    [
        (10, "     ├━━━━━"),
        (-10, "━━━━━┤     "),
        (0, "     │     "),
        (1, "     ├━    "),
        (-4, "   ━━┤     "),
        (99, "     ├━━━━━"),
    ],
)
def test_bars_stand_on_their_side_of_the_middle(value, bar):
    assert signed_bar(value, 10, 5) == bar
