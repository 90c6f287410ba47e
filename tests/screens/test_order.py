"""Questions in the order of subjects or the most telling first; and when it is time to stop."""

import pytest

from diagnose import locations
from diagnose.screens.questions import QuestionsScreen
from looking import settled, shows, text_of, until

NOT_WEIGHED = ("plant_profile", "place", "days_since_moved", "leaf_history", "watering_every_d")
"""Their answers cannot be listed and tried, so they come first in any order."""
SOME = {"standing_water": False, "night_low_c": 20.0, "drooping": "whole_plant"}


async def opened(pilot):
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    await settled(pilot)


async def test_by_subject_unless_it_was_chosen_otherwise(make_app, saved):
    async with make_app(saved(answers=SOME)).run_test(size=(80, 24)) as pilot:
        await opened(pilot)
        await shows(pilot, "What kind of plant is it?")


async def test_before_the_first_answer_it_is_told_how_few_may_do(make_app, saved):
    async with make_app(saved(answers={})).run_test(size=(80, 24)) as pilot:
        await opened(pilot)
        await shows(pilot, "You need not answer them all: F8 shows")
        await pilot.press("f4")
        await shows(pilot, "1 of")
        await settled(pilot)
        assert "You need not" not in text_of(pilot.app)
        await pilot.press("f5", *"aloc", "enter")
        await shows(pilot, "Alocasia (elephant ear)")  # the case is called after its kind from now on


async def test_two_keys_put_the_most_telling_question_first(make_app, saved):
    path = saved(answers=SOME, not_known=NOT_WEIGHED)
    async with make_app(path).run_test(size=(80, 24), notifications=True) as pilot:
        await opened(pilot)
        pilot.app.screen.go_to("signs")
        await pilot.press("f7", "o")
        await shows(pilot, "Questions now come the most telling")
        await pilot.press("escape")
        await shows(pilot, "When it droops, is the soil wet or dry?")
        assert 'order = "telling"' in locations.settings().read_text(encoding="utf-8")


async def test_choosing_a_question_goes_before_the_order(make_app, saved):
    async with make_app(saved(answers=SOME)).run_test(size=(80, 24)) as pilot:
        await opened(pilot)
        await pilot.press("f7", "o", "end", "enter")
        await settled(pilot)
        await shows(pilot, "Does water stand in the saucer?")


async def test_after_an_answer_comes_the_most_telling_of_the_rest(make_app, saved):
    path = saved(answers={"night_low_c": 20.0, "drooping": "whole_plant"})
    async with make_app(path).run_test(size=(80, 24)) as pilot:
        pilot.app.change_settings(order="telling")
        await opened(pilot)
        await until(pilot, lambda: pilot.app.screen.questionnaire.telling != ())
        first, second = pilot.app.screen.questionnaire.telling[:2]
        pilot.app.screen.go_to(first)
        await pilot.press("f4")
        await settled(pilot)
        assert pilot.app.screen.questionnaire.current.id == second


@pytest.mark.parametrize("known", [True, False])
async def test_it_says_so_in_the_order_of_subjects_too(make_app, saved, monkeypatch, known):
    monkeypatch.setattr("diagnose.screens.questions._PAUSE_S", 0.01)
    answers = SOME if known else {"drooping": "whole_plant"}
    path = saved(answers=answers)
    async with make_app(path).run_test(size=(80, 24)) as pilot:
        await opened(pilot)
        pilot.app.screen.go_to("medium_when_drooping")
        await settled(pilot)
        await pilot.press("1")
        if known:
            await shows(pilot, "would hardly move the ranking: F8")
        else:
            await settled(pilot)
            await pilot.pause(0.5)  # long after the look at what is open
            assert "would hardly move the ranking" not in text_of(pilot.app)


@pytest.mark.parametrize("known", [True, False])
async def test_it_says_when_further_answers_would_hardly_matter(make_app, saved, known):
    answers = SOME | ({"medium_when_drooping": "wet"} if known else {})
    async with make_app(saved(answers=answers)).run_test(size=(80, 24)) as pilot:
        pilot.app.change_settings(order="telling")
        await opened(pilot)
        await until(pilot, lambda: pilot.app.screen.questionnaire.telling != ())
        await settled(pilot)
        assert ("would hardly move the ranking: F8" in text_of(pilot.app)) is known


async def test_the_first_screen_sets_the_order_and_back(make_app):
    async with make_app().run_test(size=(80, 24), notifications=True) as pilot:
        await pilot.press("q")
        await shows(pilot, "Questions now come the most telling")
        await pilot.press("q")
        await until(pilot, lambda: pilot.app.settings.order == "subject")
