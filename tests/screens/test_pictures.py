"""How each screen looks at three sizes, as plain text; UPDATE_PICTURES=1 writes the pictures anew."""

import pytest

from diagnose.screens.questions import QuestionsScreen
from looking import compare, settled, shows, until

SIZES = [(80, 24), (120, 36), (160, 45)]
ANSWERS = {
    "drooping": "whole_plant",
    "medium_when_drooping": "wet",
    "standing_water": True,
    "night_low_c": 17.0,
}
each_size = pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")


@pytest.fixture
def case(saved):
    return saved(title="Wet feet", answers=ANSWERS, not_known=("place",))


async def opened(pilot, *keys):
    """Open the case the application was given and press keys."""
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    await pilot.press(*keys)
    await settled(pilot)


@each_size
async def test_start(make_app, case, size):
    async with make_app().run_test(size=size) as pilot:
        await shows(pilot, "rules weigh the evidence", "Wet feet")
        await settled(pilot)
        compare(pilot.app, f"start_{size[0]}x{size[1]}")


@each_size
@pytest.mark.parametrize("question", ["drooping", "night_low_c", "leaf_history", "signs", "plant_profile"])
async def test_questions(make_app, case, size, question):
    if size != (80, 24) and question != "drooping":
        pytest.skip("the fields look the same at every size; one picture is enough")
    async with make_app(case).run_test(size=size) as pilot:
        await opened(pilot)
        pilot.app.screen.go_to(question)
        await settled(pilot)
        compare(pilot.app, f"question_{question}_{size[0]}x{size[1]}")


@each_size
async def test_all_questions(make_app, case, size):
    async with make_app(case).run_test(size=size) as pilot:
        await opened(pilot, "f7")
        compare(pilot.app, f"list_{size[0]}x{size[1]}")


@each_size
async def test_review(make_app, case, size):
    async with make_app(case).run_test(size=size) as pilot:
        await opened(pilot, "f8")
        await pilot.press("tab", "down", "enter")
        await settled(pilot)
        compare(pilot.app, f"review_{size[0]}x{size[1]}")


@each_size
async def test_rules(make_app, size):
    async with make_app().run_test(size=size) as pilot:
        await pilot.press("r")
        await shows(pilot, "entries")
        await pilot.press("down")
        await settled(pilot)
        compare(pilot.app, f"rules_{size[0]}x{size[1]}")


async def test_help(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("f1")
        await shows(pilot, "What the keys do")
        compare(pilot.app, "help_80x24")
