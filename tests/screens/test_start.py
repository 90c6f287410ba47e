"""The first screen: it waits for nothing, lists cases and examples, and tells what was left out."""

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.review import ReviewScreen
from diagnose.screens.rules import RulesScreen
from looking import settled, shows, text_of, type_text, until


async def test_the_first_picture_does_not_wait_for_the_rules(make_app, monkeypatch):
    app = make_app()
    monkeypatch.setattr(app.loader, "_read", lambda: pytest.fail("the rules were read"))
    monkeypatch.setattr("diagnose.screens.start.StartScreen._begin", lambda self: None)
    async with app.run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Start a new case", "F1 Help")


async def test_cases_and_examples_are_listed_last_changed_first(make_app, saved):
    import os

    older, newer = (
        saved("older", title="Older one"),
        saved("newer", title="Newer one", answers={"drooping": "none"}),
    )
    os.utime(older, (1, 1))
    async with make_app().run_test(size=(80, 30)) as pilot:
        await shows(
            pilot, "Your cases", "Newer one", "25 November 2026, 1 answer", "Wet feet", "Droops in wet soil"
        )
        seen = text_of(pilot.app)
        assert seen.index("Newer one") < seen.index("Older one") < seen.index("Wet feet")
    assert newer.exists()


async def test_a_saved_case_is_continued(make_app, saved):
    saved(title="Juniper", answers={"drooping": "none"})
    async with make_app().run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Juniper")
        await pilot.press("down", "down", "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        await shows(pilot, "Juniper", "1 of 9 done")


async def test_an_example_opens_with_its_reasons_and_stays_as_it_is(make_app):
    (demo,) = locations.demo_cases().glob("*.toml")
    before = demo.read_text(encoding="utf-8")
    async with make_app().run_test(size=(80, 24), notifications=True) as pilot:
        await shows(pilot, "Wet feet")
        await pilot.press("down", "down", "enter")
        await shows(pilot, "Ranking and reasons", "Rotting roots")
        await pilot.press("tab", "down", "enter", "down", "enter")
        await shows(pilot, "Does the plant droop?", "your answer")
        assert not locations.user_cases().exists()
        await pilot.press("2")
        await shows(pilot, "The example stays as it is.", "copy of it")
        await settled(pilot)
        await pilot.press("escape")
        await shows(pilot, "Wet feet (copy of the example)")
    assert demo.read_text(encoding="utf-8") == before
    (copy,) = locations.user_cases().iterdir()
    assert copy.name == "2026-11-25-wet-feet.toml"
    assert read_case(copy)[0].title == "Wet feet (copy of the example)"


async def test_the_copy_of_an_example_keeps_the_name_it_is_given(make_app):
    (demo,) = locations.demo_cases().glob("*.toml")
    async with make_app(demo).run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        asked = pilot.app.screen.questionnaire
        asked.rename("My own")
        asked.do_not_know()
    (copy,) = locations.user_cases().iterdir()
    assert read_case(copy)[0].title == "My own"


async def test_back_from_an_example_is_the_first_screen(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Wet feet")
        await pilot.press("down", "down", "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, ReviewScreen))
        await pilot.press("escape")
        await shows(pilot, "Start a new case")


async def test_a_case_is_opened_by_its_path(make_app, saved):
    path = saved(title="By path")
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("o")
        await shows(pilot, "Path of the case file")
        pilot.app.screen.query_one("Input").value = str(path)
        await pilot.press("enter")
        await shows(pilot, "By path", "What kind of plant is it?")


async def test_a_path_without_a_file_is_told_and_all_goes_on(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("o")
        await shows(pilot, "Path of the case file")
        await type_text(pilot, "nowhere")
        await pilot.press("enter")
        await shows(pilot, "That did not work", "no such file", "Enter goes back.")
        await pilot.press("enter")
        await shows(pilot, "Start a new case")


async def test_a_faulty_case_is_told_and_the_rest_is_usable(make_app, tmp_path):
    path = tmp_path / "faulty.toml"
    path.write_text(
        'date = 2026-11-01\ntitle = "Half right"\ncolour = "green"\n[answers]\ndrooping = "whole_plant"\nnonsense = 3\n'
    )
    async with make_app(path).run_test(size=(100, 30)) as pilot:
        await shows(pilot, "Not all could be used", "colour", "nonsense", "The file stays as it is")
        await pilot.press("enter")
        await shows(pilot, "Half right", "1 of 11 done")


async def test_what_is_no_case_at_all_is_told(make_app, tmp_path):
    path = tmp_path / "broken.toml"
    path.write_text("this is = not = toml")
    async with make_app(path).run_test(size=(100, 30)) as pilot:
        await shows(pilot, "That did not work", "text that is not TOML")


async def test_rules_left_out_are_told_here(make_app, tmp_path):
    house = tmp_path / "house"
    house.mkdir()
    (house / "mine.toml").write_text('[[cause]]\nid = "mine"\n')
    async with make_app(house=[house]).run_test(size=(120, 36)) as pilot:
        await shows(pilot, "1 rule file left out (R shows all)", "mine.toml")
        await pilot.press("r")
        await until(pilot, lambda: isinstance(pilot.app.screen, RulesScreen))


async def test_colours_are_chosen_once(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("t")
        assert pilot.app.theme == "light"
    assert locations.settings().read_text(encoding="utf-8") == 'colours = "light"\n'
    assert make_app().theme == "light"


async def test_faulty_settings_are_told_and_count_as_none(make_app):
    locations.settings().parent.mkdir(parents=True)
    locations.settings().write_text('colours = "mauve"\n')
    async with make_app().run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Not all could be used", "mauve")
        assert pilot.app.theme == "dark"


@pytest.mark.parametrize("keys", [[], ["f1"], ["f2"], ["l"], ["o"], ["o", "x", "enter"]], ids="".join)
async def test_f10_leaves_from_windows_too(make_app, keys):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press(*keys)
        await settled(pilot)
        assert pilot.app.is_running
        await pilot.press("f10")
        await until(pilot, lambda: not pilot.app.is_running)
    assert pilot.app.return_code == 0


async def test_a_capital_does_what_its_letter_does(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("N")
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
