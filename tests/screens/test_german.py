"""The screens in German: texts in their places, columns that hold, numbers with a comma."""

import pytest

from diagnose.language import SOURCE, speak
from diagnose.screens.plant_table import PlantTable
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.review import PageTitle, ReviewScreen
from looking import settled, shows, text_of, until
from shelves import a_shelf, begin_case

ANSWERS = {
    "drooping": "whole_plant",
    "medium_when_drooping": "wet",
    "standing_water": True,
    "night_low_c": 17.0,
}


@pytest.fixture(autouse=True)
def _german():
    speak("de")
    yield
    speak(SOURCE)


async def test_every_page_of_the_review_has_its_title_in_full(make_app, saved):
    path = saved(title="Nasse Füße", answers=ANSWERS)
    async with make_app(path).run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        await pilot.press("f8")
        await until(pilot, lambda: isinstance(pilot.app.screen, ReviewScreen))
        titles = [str(one.render()) for one in pilot.app.screen.query(PageTitle)]
        await shows(pilot, " ".join(titles), "+12,5", "gesamt", "dafür")
        for key, said in (
            ("3", "Wie weit jede zurückliegt"),
            ("4", "Was als Nächstes zu prüfen ist"),
            ("5", "Was, wenn eine Antwort falsch ist"),
            ("6", "Wie sicher: Die erste Stelle ist"),
            ("7", "Was zu tun ist"),
        ):
            await pilot.press(key)
            await shows(pilot, said)
            await settled(pilot)


@pytest.mark.parametrize("width", [40, 80, 120, 160])
async def test_no_word_of_the_collection_is_cut(make_app, width):
    ids = a_shelf()
    begin_case(ids["Plain 2"])
    async with make_app().run_test(size=(width, 45)) as pilot:
        await pilot.press("c")
        await until(pilot, lambda: bool(list(pilot.app.screen.query(PlantTable))))
        await shows(pilot, "Blätter", "Verluste", "steigt von 0")
        table = [line for line in text_of(pilot.app).splitlines() if "Plain" in line or "Amber" in line]
        assert len(table) == 10
        assert not any("…" in line for line in table)
