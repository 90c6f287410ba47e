"""Answering by every way there is; nothing is lost; the ranking follows."""

import datetime as dt

import pytest
from textual.widgets import Input

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.screens.inputs.plant import fitting_plants
from looking import settled, shows, tells, text_of, type_text, until


def only_case():
    """Return the one case on disk."""
    (path,) = locations.user_cases().glob("*.toml")
    case, problems = read_case(path)
    assert problems == ()
    return case


async def at(pilot, question):
    """Stand at a question."""
    await until(pilot, lambda: hasattr(pilot.app.screen, "questionnaire"))
    pilot.app.screen.go_to(question)
    await until(pilot, lambda: pilot.app.focused is not None)
    await pilot.pause()


async def test_one_key_leads_to_the_first_question(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await shows(pilot, "What kind of plant is it?", "F4 Don't know")


@pytest.mark.parametrize("keys", [["2"], ["b"], ["down", "down", "enter"]])
async def test_a_choice_by_digit_letter_or_arrow(make_app, keys):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.press(*keys)
        await shows(pilot, "When it droops, is the soil wet or dry?")
        assert only_case().answers == {"drooping": "lower_leaves"}


async def test_enter_takes_no_choice_that_was_not_chosen(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await shows(pilot, "A number answers; arrows mark a row, Enter takes it.")
        await pilot.press("enter")
        await shows(pilot, "No row is marked yet: press 1 to 3 or 0", "Does the plant droop?")
        assert not locations.user_cases().exists()


async def test_enter_keeps_an_earlier_answer(make_app, saved):
    async with make_app(saved(answers={"drooping": "lower_leaves"})).run_test(size=(80, 24)) as pilot:
        await at(pilot, "drooping")
        await pilot.press("enter")
        await shows(pilot, "is the soil wet or dry?")
        assert only_case().answers == {"drooping": "lower_leaves"}


@pytest.mark.parametrize("key", ["7", "x"])
async def test_a_key_that_is_no_choice_is_told(make_app, key):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.press(key)
        await shows(pilot, f"{key.upper()} is no choice here: press 1 to 3 or 0.", "Does the plant droop?")


async def test_a_choice_by_mouse(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.click("NumberedList", offset=(6, 2))
        await settled(pilot)
        assert only_case().answers == {"drooping": "whole_plant"}


@pytest.mark.parametrize("key", ["0", "f4"])
async def test_not_known_by_one_key(make_app, key):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.press(key)
        await settled(pilot)
        assert only_case().not_known == ("drooping",)


async def test_what_does_not_apply_is_skipped_with_its_reason(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.press("1")
        await shows(pilot, "How many leaves has it had?", "Skipped 2 questions: nothing droops.")


async def test_a_date_is_typed_freely_and_shown_back(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "days_since_moved")
        await type_text(pilot, "3 weeks ago")
        await shows(pilot, "that is 4 November 2026, 3 weeks ago")
        await pilot.press("enter")
        await settled(pilot)
        assert only_case().answers == {"days_since_moved": dt.date(2026, 11, 4)}


async def test_bad_input_is_told_and_kept(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "night_low_c")
        await type_text(pilot, "99")
        await pilot.press("enter")
        await shows(pilot, "please give a number from -10 to 40 °C")
        assert pilot.app.screen.query_one(Input).value == "99"
        assert not locations.user_cases().exists()


@pytest.mark.parametrize(
    ("away", "back"), [("f5", "f6"), ("f6", "f5"), ("f7", "escape"), ("f8", "escape"), ("f3", "escape")]
)
async def test_what_is_typed_but_not_entered_is_there_on_coming_back(make_app, away, back):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "night_low_c")
        await type_text(pilot, "12")
        await pilot.press(away)
        await settled(pilot)
        await pilot.press(back)
        await shows(pilot, "that is 12 °C", "Enter takes it")
        await until(pilot, lambda: isinstance(pilot.app.focused, Input))
        await pilot.press("enter")
        await settled(pilot)
        assert only_case().answers == {"night_low_c": 12.0}
        pilot.app.screen.go_to("signs")  # what was entered is no longer waiting
        await pilot.press("escape")
        await shows(pilot, "Your cases")


async def test_ticks_that_were_not_taken_are_there_on_coming_back(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "signs")
        await pilot.press("2", "f6", "f5")
        await shows(pilot, "[ ] fine webs", "[x] pale specks")


async def test_leaving_asks_about_a_leaf_count_that_was_not_added(make_app):
    async with make_app().run_test(size=(80, 24), notifications=True) as pilot:
        await pilot.press("n")
        await at(pilot, "leaf_history")
        await type_text(pilot, "2026-09-01")
        await pilot.press("tab", "6", "f6")
        await shows(pilot, "Which of these do you see?")
        await pilot.press("escape")
        await shows(pilot, "What you typed here is not entered", "Esc again")
        await shows(pilot, "How many leaves has it had?", "2026-09-01")
        await until(pilot, lambda: isinstance(pilot.app.focused, Input))
        await pilot.press("enter")
        await shows(pilot, "6 leaves on 1 September 2026")
        assert [count.present for count in only_case().leaf_history] == [6]
        await pilot.press("escape")
        await shows(pilot, "Your cases")


async def test_leaving_twice_leaves_without_what_was_typed(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "night_low_c")
        await type_text(pilot, "12")
        await pilot.press("escape")
        await settled(pilot)
        assert pilot.app.screen.query_one(Input).value == "12"
        await pilot.press("escape")
        await shows(pilot, "Start a new case")
        assert not locations.user_cases().exists()


async def test_an_empty_field_is_not_known(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "night_low_c")
        await pilot.press("enter")
        await settled(pilot)
        assert only_case().not_known == ("night_low_c",)


async def test_numbers_in_the_units_chosen_once(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("u", "n")
        await at(pilot, "night_low_c")
        await type_text(pilot, "50")
        await shows(pilot, "that is 50 °F", "A number from 14 to 104 °F")
        await pilot.press("enter")
        await settled(pilot)
        assert only_case().answers == {"night_low_c": 10.0}
        assert locations.settings().read_text(encoding="utf-8") == 'units = "imperial"\n'


async def test_several_are_ticked_and_taken(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "signs")
        await pilot.press("4")
        await shows(pilot, "Nothing is ticked")
        await pilot.press("1", "2", "1")
        await shows(pilot, "[ ] fine webs", "[x] pale specks")
        await pilot.press("4")
        await settled(pilot)
        assert only_case().answers == {"signs": ("specks",)}


async def test_none_of_several(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "signs")
        await pilot.press("3")
        await settled(pilot)
        assert only_case().answers == {"signs": ()}


async def test_a_plant_by_a_few_letters(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "plant_profile")
        await type_text(pilot, "eleph")
        await pilot.press("enter")
        await settled(pilot)
        assert only_case().plant.profile == "alocasia"


async def test_a_misspelt_plant_and_enter_stays_on_the_question(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "plant_profile")
        await type_text(pilot, "zzz")
        await pilot.press("enter")
        await settled(pilot)
        await shows(pilot, "No kind in the list is called so", "What kind of plant is it?")


def test_plants_whose_name_begins_as_typed_come_first(base):
    names = [plant.id for plant in fitting_plants(base.plants.values(), "alo")]
    assert names[0] == "alocasia"
    assert "homalomena" in names  # it holds the letters too, but does not begin so
    assert fitting_plants(base.plants.values(), "zzz") == []


async def test_a_town_is_looked_up_and_an_unknown_one_told(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "place")
        await type_text(pilot, "Dundeee")
        await pilot.press("enter")
        await shows(pilot, "No town of more than 15,000 people is called so")
        await pilot.press("backspace", "enter")
        await until(pilot, lambda: locations.user_cases().exists())
        assert only_case().place.city == "Dundee"


async def test_another_name_of_a_town_is_taken_only_when_confirmed(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "place")
        await type_text(pilot, "alo")
        await pilot.press("enter")
        await shows(pilot, "Do you mean Waterloo, US, 42.5 degrees north? Enter again takes it.")
        assert not locations.user_cases().exists()
        await pilot.press("enter")
        await until(pilot, lambda: locations.user_cases().exists())


async def test_coordinates_are_a_place(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "place")
        await type_text(pilot, "52.1 -1.4")
        await pilot.press("enter")
        await until(pilot, lambda: locations.user_cases().exists())
        assert (only_case().place.latitude, only_case().place.longitude) == (52.1, -1.4)


async def test_leaf_counts_are_added_changed_removed_and_drawn(make_app):
    async with make_app().run_test(size=(120, 36)) as pilot:
        await pilot.press("n")
        await at(pilot, "leaf_history")
        await type_text(pilot, "2026-09-01")
        await pilot.press("tab", "6", "enter")
        await shows(pilot, "1 Sep 2026", "━━━━━━━━━━━━━━")
        await type_text(pilot, "2 weeks ago")
        await pilot.press("tab", "3", "tab", "1", "tab", "4", "tab", "o", "enter")
        await shows(pilot, "1 opened, 4 lost (oldest)", "from 6 to 3 leaves in 71 days: 1 opened, 4 lost")
        assert len(only_case().leaf_history) == 2  # on disk before the table is taken
        pilot.app.screen.query_one("Counts").focus()
        await pilot.press("home", "x")
        await shows(pilot, "3 leaves on 11 November 2026")
        await pilot.press("enter", "tab", "backspace", "5", "enter", "enter")
        await shows(pilot, "Which of these do you see?")
        assert [count.present for count in only_case().leaf_history] == [5]


async def test_a_leaf_count_that_cannot_be_read_is_told(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "leaf_history")
        await type_text(pilot, "soon")
        await pilot.press("enter")
        await shows(pilot, "Please type a date not after 2026-11-25")


async def test_back_forward_and_undo(make_app):
    async with make_app().run_test(size=(80, 24), notifications=True) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.press("3")
        await shows(pilot, "is the soil wet or dry?")
        await pilot.press("f5")
        await shows(pilot, "Does the plant droop?", "the whole plant   your answer")
        await pilot.press("right")
        await shows(pilot, "is the soil wet or dry?")
        await pilot.press("left", "f6", "f9")
        await shows(pilot, "Does the plant droop?")
        await settled(pilot)
        assert only_case().answers == {}
        await pilot.press("f9")
        await shows(pilot, "There is nothing to take back.")


async def test_the_ranking_follows_each_answer(make_app, saved):
    path = saved(answers={"drooping": "whole_plant", "standing_water": True, "night_low_c": 20.0})
    async with make_app(path).run_test(size=(120, 36)) as pilot:
        await at(pilot, "medium_when_drooping")
        await pilot.press("1")
        await shows(pilot, "1  Rotting roots", "97 %")


async def test_the_newest_answer_wins(make_app, saved):
    path = saved(answers={"drooping": "whole_plant", "night_low_c": 20.0})
    async with make_app(path).run_test(size=(120, 36)) as pilot:
        await at(pilot, "medium_when_drooping")
        screen = pilot.app.screen
        old_case, old = screen.questionnaire.case, screen.questionnaire.diagnosis
        await pilot.press("2")
        screen.post_message(screen.Weighed(old_case, old))
        await settled(pilot)
        assert screen.questionnaire.diagnosis.case.answers["medium_when_drooping"] == "dry"
        assert not screen.questionnaire.is_behind


async def test_more_about_a_question(make_app):
    async with make_app().run_test(size=(120, 36)) as pilot:
        await pilot.press("n")
        await at(pilot, "standing_water")
        await pilot.press("f3")
        await shows(
            pilot, "Look an hour after watering.", "What each answer would tell", "yes: +7.5 dB Rotting roots"
        )
        await pilot.press("escape")
        await shows(pilot, "Does water stand in the saucer?")


async def test_jump_to_any_question_and_see_its_state(make_app, saved):
    path = saved(answers={"drooping": "none"}, not_known=("place",))
    async with make_app(path).run_test(size=(120, 36)) as pilot:
        await at(pilot, "signs")
        await pilot.press("f7")
        await shows(
            pilot, "nothing droops", "skipped: nothing droops", "not known", "2 done, 7 open, 2 skipped"
        )
        await pilot.press("right", "down", "enter")
        await shows(pilot, "How many days pass between waterings?")


LONG = "On how many of the last thirty evenings did it stand within reach of an open window?"


async def test_a_house_question_is_marked_and_long_ones_are_shown_whole_in_the_list(
    make_app, saved, tmp_path
):
    house = tmp_path / "house.toml"
    house.write_text(
        f'[[question]]\nid = "evenings"\nsubject = "plant"\nkind = "choice"\neffort = "think"\ntext = "{LONG}"\n'
        'help = "Think of the weather."\nwhy = "Cold air."\n'
        'choices = [{ id = "few", label = "a few" }, { id = "many", label = "a good many of them, and all night" }]\n',
        encoding="utf-8",
    )
    path = saved(answers={"evenings": "many"})
    async with make_app(path, house=[house]).run_test(size=(80, 24)) as pilot:
        await at(pilot, "evenings")
        await shows(pilot, "from memory (house)")
        await pilot.press("f3")
        await tells(pilot, f"{LONG} (house)")
        await pilot.press("escape", "f7")
        await shows(pilot, "All questions", "window? (house)", "a good many of them, and all")
        assert "…" not in text_of(pilot.app)


async def test_subjects_by_arrow_in_the_list(make_app, saved):
    async with make_app(saved()).run_test(size=(80, 24)) as pilot:
        await at(pilot, "signs")
        await pilot.press("f7")
        await shows(pilot, "All questions")
        await pilot.press("left", "left", "enter")
        await shows(pilot, "What kind of plant is it?")


async def test_a_case_is_named_from_the_list(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "signs")
        await pilot.press("f7", "n")
        await shows(pilot, "Name of this case")
        await type_text(pilot, "Juniper")
        await pilot.press("enter", "escape")
        await shows(pilot, "Juniper", "Which of these do you see?")
        assert only_case().title == "Juniper"


async def test_a_case_is_left_and_resumed_at_its_question(make_app):
    app = make_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await at(pilot, "drooping")
        await pilot.press("3")
        await shows(pilot, "is the soil wet or dry?")
        await pilot.press("f6", "f6", "f6")
        await shows(pilot, "Which of these do you see?")
        await pilot.press("escape")
        await shows(pilot, "Your cases")
        await settled(pilot)
    (path,) = locations.user_cases().glob("*.toml")
    async with make_app(path).run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Which of these do you see?")


async def test_the_end_says_what_it_came_to(make_app, saved):
    path = saved(
        answers={"drooping": "none", "signs": (), "night_low_c": 9.0, "watering_every_d": 7.0},
        not_known=("place", "plant_profile", "leaf_history", "days_since_moved"),
    )
    async with make_app(path).run_test(size=(80, 24)) as pilot:
        await at(pilot, "standing_water")
        await pilot.press("2")
        await shows(pilot, "All questions are done", "Press F8 for the reasons")


async def test_it_works_at_every_size_while_it_is_resized(make_app, saved):
    path = saved(
        answers={
            "drooping": "whole_plant",
            "medium_when_drooping": "wet",
            "standing_water": True,
            "night_low_c": 20.0,
        }
    )
    async with make_app(path).run_test(size=(160, 45)) as pilot:
        await at(pilot, "signs")
        await shows(pilot, "Subjects", "So far", "F8 Reasons")
        for width, height in ((80, 24), (120, 36), (60, 16), (160, 45)):
            await pilot.resize_terminal(width, height)
            await shows(pilot, "Which of these do you see?", "Rotting roots", "F1 Help")
        assert "Subjects" in text_of(pilot.app)
