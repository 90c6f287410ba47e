"""Cases of the journal in the screens: left and resumed at their question, and another journal than one's own."""

from pathlib import Path

from diagnose import locations
from diagnose.journal import counts, open_journal, plants
from diagnose.screens.app import DiagnoseApp
from diagnose.screens.questions import QuestionsScreen
from looking import settled, shows, until
from shelves import TODAY, add


async def opened(pilot, plant):
    """Open a plant's case."""
    pilot.app.open_plant_case(plant)
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))


async def test_a_case_of_the_journal_is_resumed_at_its_question_and_each_plants_at_its_own(make_app):
    anvil, bellows = add("Anvil"), add("Bellows")
    async with make_app().run_test(size=(80, 24)) as pilot:
        for plant, question in ((anvil, "signs"), (bellows, "standing_water")):
            await opened(pilot, plant)
            pilot.app.screen.go_to(question)
            await pilot.press("escape")
            await settled(pilot)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await opened(pilot, anvil)
        await shows(pilot, "Anvil", "Which of these do you see?")
        await pilot.press("escape")
        await settled(pilot)
        await opened(pilot, bellows)
        await shows(pilot, "Bellows", "Does water stand in the saucer?")


async def test_another_journal_is_read_and_written_and_the_growers_own_left_alone(tmp_path: Path):
    other = tmp_path / "other.sqlite"
    with open_journal(other) as book:
        plant = plants.add_plant(book, "Elsewhere", place="loft").id
    app = DiagnoseApp([], None, journal=other, today=lambda: TODAY)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("c")
        await shows(pilot, "Elsewhere", "1 plant")
        await pilot.press("c", "5", "enter")
        await settled(pilot)
        await opened(pilot, plant)
        await shows(pilot, "Elsewhere")
    with open_journal(other) as book:
        assert [one.present for one in counts.counts_of(book, plant)] == [5]
    assert not locations.journal().exists()
