"""The language chosen in the screens: all is said in it at once, the rules too, and the case in hand stays."""

import io
import string
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.language import SOURCE, speak, spoken
from diagnose.screens.collection import CollectionScreen
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.review import ReviewScreen
from diagnose.screens.shelf import demo_cases
from diagnose.screens.start import StartScreen
from looking import compare, settled, shows, text_of, type_text, until
from shelves import add

ROOT = Path(__file__).resolve().parents[2]
ANSWERS = {
    "drooping": "whole_plant",
    "medium_when_drooping": "wet",
    "standing_water": True,
    "night_low_c": 17.0,
}
ROTTING = {
    "drooping": "3",
    "medium_when_drooping": "1",
    "roots_look": "3",
    "root_smell": "2",
    "drainage": "3",
}
"""Questions of the shipped rules -> keys that tell of rotting roots."""
LONG = 12
"""Letters from which a piece of a message is certainly not by chance on a screen in another language."""


@pytest.fixture(autouse=True)
def _english_afterwards():
    yield
    speak(SOURCE)


@pytest.fixture
def german(spoken_in):
    spoken_in("de")


async def choose(pilot, typed):
    """Choose a language in the palette."""
    await pilot.press("f2")
    await type_text(pilot, typed)
    await until(pilot, lambda: "Deutsch" in text_of(pilot.app) or "English" in text_of(pilot.app))
    await settled(pilot)
    await pilot.press("enter")
    await settled(pilot)


async def test_a_language_is_chosen_by_its_own_name_and_spoken_at_once(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await shows(pilot, "rules weigh the evidence")
        await pilot.press("l")
        await shows(pilot, "English", "Deutsch")
        await pilot.press("down", "enter")
        await shows(
            pilot, "Warum verliert diese Pflanze ihre Blätter?", "F1 Hilfe", "Regeln wägen die Hinweise ab"
        )
        assert isinstance(pilot.app.screen, StartScreen)
    assert spoken() == "de"
    assert locations.settings().read_text(encoding="utf-8") == 'language = "de"\n'


async def test_the_language_spoken_is_marked_and_choosing_it_changes_nothing(make_app, german):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Regeln wägen")
        start = pilot.app.screen
        await pilot.press("l", "enter")
        await settled(pilot)
        assert pilot.app.screen is start
    assert spoken() == "de"


async def test_the_case_in_hand_stays_with_its_question_and_its_rules_speak_too(make_app, saved):
    path = saved(title="Juniper", answers={"drooping": "whole_plant"})
    async with make_app(path).run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        pilot.app.screen.go_to("standing_water")
        await choose(pilot, "deutsch")
        await shows(pilot, "Juniper", "Steht Wasser im Untersetzer?", "F1 Hilfe")
        await pilot.press("1", "f8")
        await shows(pilot, "Faulende Wurzeln")
        assert "Rotting" not in text_of(pilot.app)
        await pilot.press("escape")
        await choose(pilot, "engl")
        await shows(pilot, "Juniper", "What kind of plant is it?")
        await pilot.press("escape")
        await shows(pilot, "Start a new case", "Juniper")


async def test_a_case_without_a_file_yet_stays_at_its_question(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        pilot.app.screen.go_to("signs")
        await choose(pilot, "deutsch")
        await shows(pilot, "Was davon siehst du?", "feine Gespinste")
    assert not locations.user_cases().exists()


async def test_an_example_stays_with_its_reasons(make_app):
    (demo,) = locations.demo_case_files()
    async with make_app().run_test(size=(80, 24)) as pilot:
        pilot.app.open_case(demo, reasons_first=True)
        await shows(pilot, "Rotting roots")
        await choose(pilot, "deutsch")
        await until(pilot, lambda: isinstance(pilot.app.screen, ReviewScreen))
        await shows(pilot, "Faulende Wurzeln")


async def test_a_case_of_the_journal_stays_with_its_answers(make_app):
    plant = add("Anvil")
    async with make_app().run_test(size=(80, 24)) as pilot:
        pilot.app.open_plant_case(plant)
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        pilot.app.screen.go_to("drooping")
        await settled(pilot)
        await pilot.press("3")
        await shows(pilot, "is the soil wet or dry?")
        await choose(pilot, "deutsch")
        await shows(pilot, "Ist die Erde nass oder trocken?")
        await pilot.press("f5")
        await shows(pilot, "Hängt die Pflanze?", "die ganze Pflanze")
        assert pilot.app.screen.questionnaire.case.answers == {"drooping": "whole_plant"}


async def test_from_the_journals_screens_it_goes_back_to_the_first(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("c")
        await until(pilot, lambda: isinstance(pilot.app.screen, CollectionScreen))
        await choose(pilot, "deutsch")
        await shows(pilot, "Warum verliert diese Pflanze ihre Blätter?")


async def test_a_language_file_that_cannot_be_read_is_told(make_app, monkeypatch):
    from diagnose.language import BrokenFile

    def broken(language):
        speak(language)
        return (BrokenFile("de/screens.po", 7),)

    monkeypatch.setattr("diagnose.screens.app.speak", broken)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("l", "down", "enter")
        await shows(pilot, "de/screens.po", "7")


async def test_what_the_palette_does_not_find_is_said_in_german(make_app, german):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("f2")
        await shows(pilot, "Frage, Ursache, Regel, Fall oder Befehl finden")
        await type_text(pilot, "qqqq")
        await shows(pilot, "Nichts heißt so.")
        await pilot.press("enter")
        await settled(pilot)
        await shows(pilot, "Einen neuen Fall beginnen")


async def test_examples_speak_german_and_all_of_them_are_translated(make_app, german, monkeypatch):
    monkeypatch.setattr(locations, "demo_cases", lambda: ROOT / "cases_demo")
    for listed in demo_cases():
        case, _problems = read_case(listed.path)
        assert case.title != listed.title
        assert case.story != listed.detail
    async with make_app().run_test(size=(80, 24)) as pilot:
        await shows(pilot, "Alles eingezogen, Knolle fest")
        await pilot.press("down", "down", "enter")
        await shows(pilot, "Alles eingezogen, Knolle fest, 28. Dezember 2026")


def english():
    """Every long enough piece, between gaps, of a message or rule text that is translated into German."""
    files = [*ROOT.glob("diagnose/language/de/*.po"), *ROOT.glob("rules/languages/de/*.po")]
    pieces = set()
    for file in files:
        for message in read_po(io.StringIO(file.read_text(encoding="utf-8")), "de"):
            ids, said = (
                one if isinstance(one, tuple | list) else (one,) for one in (message.id, message.string)
            )
            for text in ids if all(said) else ():
                pieces |= {before.strip() for before, *_gap in string.Formatter().parse(text)} - {
                    before.strip() for one in said for before, *_gap in string.Formatter().parse(one)
                }
    return {one for one in pieces if len(one) >= LONG}


async def test_a_case_from_start_to_reasons_in_german(make_app, german, monkeypatch):
    """With the shipped rules, and nothing of the catalogue in English on the way."""
    monkeypatch.setattr(locations, "built_in_rules", lambda: ROOT / "rules")
    unwanted = english()
    assert "Start a new case" in unwanted

    def in_german(pilot):
        seen = " ".join(text_of(pilot.app).split())
        assert [one for one in unwanted if one in seen] == []

    async with make_app().run_test(size=(120, 36)) as pilot:
        await shows(pilot, "Warum verliert diese Pflanze ihre Blätter?", "Regeln wägen die Hinweise ab")
        in_german(pilot)
        await pilot.press("n")
        await shows(pilot, "Was für eine Pflanze ist es?", "F4 Weiß nicht")
        in_german(pilot)
        for question, key in ROTTING.items():
            pilot.app.screen.go_to(question)
            await settled(pilot)
            in_german(pilot)
            await pilot.press(key)
            await settled(pilot)
            in_german(pilot)
        await shows(pilot, "Faulende Wurzeln")
        await pilot.press("f8")
        await settled(pilot)
        for page in "12345678":
            await pilot.press(page)
            await settled(pilot)
            in_german(pilot)
        await pilot.press("f1")
        await shows(pilot, "Was die Tasten tun")
        in_german(pilot)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_how_it_looks_in_german(make_app, saved, german, size):
    path = saved(title="Nasse Füße", answers=ANSWERS, not_known=("place",))
    async with make_app().run_test(size=size) as pilot:
        await shows(pilot, "Regeln wägen die Hinweise ab", "Nasse Füße")
        await settled(pilot)
        compare(pilot.app, f"german_start_{size[0]}x{size[1]}")
        pilot.app.open_case(path)
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        pilot.app.screen.go_to("drooping")
        await settled(pilot)
        compare(pilot.app, f"german_question_{size[0]}x{size[1]}")
        await pilot.press("f8")
        await settled(pilot)
        await pilot.press("tab", "down", "enter")
        await settled(pilot)
        compare(pilot.app, f"german_review_{size[0]}x{size[1]}")
