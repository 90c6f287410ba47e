"""The collection, what stands out, and a plant: every way through them, hostile names, and a journal that is at fault."""

import datetime as dt
import sqlite3
import stat

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from diagnose import locations
from diagnose.collection.overview import overview
from diagnose.collection.shared import Shared
from diagnose.journal import cases, open_journal, plans, plants, rankings
from diagnose.journal.cases import read_case_record
from diagnose.journal.records import LeafTotals, PlantRecord
from diagnose.report.collection_text import shared_said
from diagnose.screens.collection import CollectionScreen
from diagnose.screens.plant import PlantScreen
from diagnose.screens.plant_line import header, plant_line, spark
from diagnose.screens.plant_table import PlantTable
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.settle import SettleScreen
from looking import compare, settled, shows, tells, text_of, type_text, until
from shelves import HOSTILE, SHEDDING, TODAY, a_shelf, add, begin_case, event, kept_counts


async def collection(pilot, *seen):
    """Go from the first screen to the collection."""
    await pilot.press("c")
    await shows(pilot, "S Search", *seen)


def names(pilot):
    """Return the names of the plants listed, in order."""
    return [row.plant.name for row in pilot.app.screen.query_one(PlantTable).rows]


async def test_an_empty_journal_says_how_to_begin_and_is_not_made_by_looking(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "no plants yet", "A adds one")
        await pilot.press("enter", "w")
        await shows(pilot, "What stands out", "No plant loses more")
        await pilot.press("escape", "c", "o")
        await shows(pilot, "0 plants, 0 leaves, 0 due", "by name")
    assert not locations.journal().exists()


async def test_every_plant_shows_its_leaves_losses_and_what_is_due(make_app):
    ids = a_shelf()
    begin_case(ids["Plain 2"])
    async with make_app().run_test(size=(160, 45)) as pilot:
        await collection(pilot, "13 plants, 78 leaves, 2 due")
        lines = {line[2:30].strip(): line for line in text_of(pilot.app).splitlines()}
        for said in ("east sill", " 2 ", "falling -18", "rising from 0", "5.9, 0.0 before", "3 d"):
            assert said in lines["Amber Kettle"], said
        for said in ("north sill", "▇▇▇▇▇▇▇▇", "steady", "20 d", "count"):
            assert said in lines["Plain 1"], said
        assert lines["Plain 2"].endswith("open")
        assert "never" in lines["Newcomer"]


async def test_plants_are_sorted_searched_as_typed_and_filtered_by_place(make_app):
    a_shelf()
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "13 plants")
        assert names(pilot)[:4] == ["Amber Kettle", "Bristle Drum", "Copper Mill", "Newcomer"]
        await pilot.press("o", "o")
        await shows(pilot, "what is due first")
        assert set(names(pilot)[:2]) == {"Newcomer", "Plain 1"}
        await pilot.press("o")
        await shows(pilot, "losses risen most first")
        assert set(names(pilot)[:3]) == {"Amber Kettle", "Bristle Drum", "Copper Mill"}
        await pilot.press("s")
        await type_text(pilot, "bark co")
        await shows(pilot, "1 plant, 2 leaves, 0 due")
        assert names(pilot) == ["Copper Mill"]
        await pilot.press("enter")
        assert isinstance(pilot.app.focused, PlantTable)
        await pilot.press("s", "ctrl+u", "escape", "p", "down", "down", "enter")
        await shows(pilot, "10 plants, 72 leaves")
        assert not set(names(pilot)) & {"Amber Kettle", "Bristle Drum", "Copper Mill"}
        await pilot.press("escape", "c")
        await shows(pilot, "north sill", "1 of 10")


async def test_a_search_without_a_hit_shows_none_and_enter_does_nothing(make_app):
    add("Anvil")
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "Anvil")
        await pilot.press("s", *"zzz", "enter", "enter", "down", "end", "pageup")
        await shows(pilot, "0 plants, 0 leaves, 0 due")
        assert isinstance(pilot.app.screen, CollectionScreen)


async def test_the_mouse_and_the_far_end_of_a_long_list(make_app):
    for n in range(60):
        add(f"Plant {n:02}", told=None)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "Plant 00")
        await pilot.press("end")
        await shows(pilot, "Plant 59")
        await pilot.press("pageup", "home", "pagedown", "up")
        table = pilot.app.screen.query_one(PlantTable)
        assert table.chosen.plant.name == "Plant 15"
        await pilot.click(PlantTable, offset=(5, 3))
        chosen = table.chosen.plant.name
        assert chosen != "Plant 15"
        await pilot.click(PlantTable, offset=(5, 3))
        await until(pilot, lambda: isinstance(pilot.app.screen, PlantScreen))
        await shows(pilot, chosen, "Not counted yet")


async def test_what_stands_out_names_plants_and_what_they_share(make_app):
    a_shelf()
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "13 plants")
        await pilot.press("w")
        await shows(pilot, "Losses rose on 3 of 3 plants", "Amber Kettle", "Bristle Drum", "Copper Mill")
        assert "Plain" not in text_of(pilot.app)
        await pilot.press("down", "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, PlantScreen))
        await pilot.press("escape", "escape")
        await shows(pilot, "Your plants")


async def test_a_case_is_begun_with_all_the_journal_knows_and_kept_in_it(make_app):
    plant = add("Anvil", told=SHEDDING, ago=3, kind="alocasia")
    event(plant, "moved", "to the sill", 30)
    async with make_app().run_test(size=(120, 36)) as pilot:
        await collection(pilot, "Anvil")
        await pilot.press("enter")
        await shows(pilot, "kind: alocasia", "Events", "moved  to the sill")
        await pilot.press("n")
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        case = pilot.app.screen.questionnaire.case
        assert (case.plant.name, case.plant.kind, case.place.label) == ("Anvil", "alocasia", "east sill")
        assert [one.present for one in case.leaf_history][-3:] == [8, 5, 2]
        assert [(one.kind, one.note) for one in case.events] == [("moved", "to the sill")]
        pilot.app.screen.go_to("drooping")
        await settled(pilot)
        await pilot.press("3")
        with open_journal(locations.journal()) as book:
            (record,) = cases.cases_of(book, plant)
            assert read_case_record(book, record).answers == {"drooping": "whole_plant"}
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, PlantScreen))
        await shows(pilot, "Case of 2026-11-25", "not settled", "%")
        with open_journal(locations.journal()) as book:
            assert len(rankings.rankings_of(book, record.id)) == len(plans.plans_of(book, record.id)) == 1
        await pilot.press("n")
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        assert pilot.app.screen.questionnaire.case.answers == {"drooping": "whole_plant"}
    assert len(kept_counts(plant)) == 40


async def answer_that_is_refused(pilot):
    """Begin a case of the plant Anvil and answer while another program writes to the journal."""
    await collection(pilot, "Anvil")
    await pilot.press("enter")
    await shows(pilot, "Last counts")
    await pilot.press("n")
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    other = sqlite3.connect(locations.journal(), isolation_level=None)
    pilot.app.screen.go_to("drooping")
    await settled(pilot)
    other.execute("BEGIN IMMEDIATE")
    await pilot.press("3")
    await tells(pilot, "another program is writing to")
    other.execute("ROLLBACK")
    other.close()


async def test_an_answer_that_was_refused_is_saved_when_the_program_is_left(make_app, monkeypatch):
    monkeypatch.setattr("diagnose.screens.plant_case.BUSY_S", 0.05)
    plant = add("Anvil")
    async with make_app().run_test(size=(80, 24)) as pilot:
        await answer_that_is_refused(pilot)
        await pilot.press("f10")
    with open_journal(locations.journal()) as book:
        (record,) = cases.cases_of(book, plant)
        assert read_case_record(book, record).answers == {"drooping": "whole_plant"}


async def test_an_answer_that_was_refused_is_told_and_saved_with_the_next(make_app, monkeypatch):
    monkeypatch.setattr("diagnose.screens.plant_case.BUSY_S", 0.05)
    plant = add("Anvil")
    async with make_app().run_test(size=(80, 24)) as pilot:
        await answer_that_is_refused(pilot)
        await pilot.press("enter")
        pilot.app.screen.go_to("standing_water")
        await settled(pilot)
        await pilot.press("1")
        with open_journal(locations.journal()) as book:
            (record,) = cases.cases_of(book, plant)
            assert read_case_record(book, record).answers == {
                "drooping": "whole_plant",
                "standing_water": "yes",
            }


async def test_a_case_is_settled_with_how_one_knows(make_app):
    plant = add("Anvil")
    async with make_app().run_test(size=(120, 36)) as pilot:
        await collection(pilot, "Anvil")
        await pilot.press("enter")
        await shows(pilot, "Last counts")
        await pilot.press("s")
        assert isinstance(pilot.app.screen, PlantScreen)  # there is no case yet
        record = begin_case(plant)
        pilot.app.written.publish(None)
        await shows(pilot, "not settled")
        await pilot.press("s")
        await until(pilot, lambda: isinstance(pilot.app.screen, SettleScreen))
        await pilot.press("tab", "enter")  # nothing is taken without a cause
        assert isinstance(pilot.app.screen, SettleScreen)
        await shows(pilot, "Rotting roots")
        await pilot.press("enter", *"soft", "enter")
        await shows(pilot, "settled:", "soft")
        with open_journal(locations.journal()) as book:
            assert cases.outcomes(book)[record.id].how == "soft"
            assert cases.outcomes(book)[record.id].cause in pilot.app.loader.loaded.base.causes


async def test_hostile_names_are_shown_as_they_are(make_app):
    for name in HOSTILE:
        plant = add(name, f"at {name}", SHEDDING, ago=3, kind=name, note=name)
        event(plant, "other", name, 5)
    add("line\nbreak\x1b[31m\u202e", told=None)
    async with make_app().run_test(size=(120, 36)) as pilot:
        await collection(pilot, "line break [31m", *HOSTILE, *(f"at {name[:8]}" for name in HOSTILE))
        await pilot.press("w")
        await shows(pilot, "What stands out", *HOSTILE)
        await pilot.press("escape")
        for row in pilot.app.screen.query_one(PlantTable).rows[:4]:
            name = row.plant.name
            await pilot.press("enter")
            await shows(pilot, f"kind: {name}", f"note: {name}", f"other  {name}")
            await pilot.press("escape", "down")


@pytest.mark.parametrize("fault", ["not_a_journal", "damaged", "newer", "read_only"])
async def test_a_journal_at_fault_is_told_in_its_one_sentence_and_left_as_it_is(make_app, fault):
    add("Anvil")
    path = locations.journal()
    said = {
        "not_a_journal": "a file that is not a journal", "damaged": "damage (", "newer": "newer version",
        "read_only": "may not be written",
    }[fault]  # fmt: skip
    if fault == "not_a_journal":
        path.write_text("something else")
    if fault == "newer":
        db = sqlite3.connect(path)
        db.execute("PRAGMA user_version = 99")
        db.close()
    if fault == "damaged":
        content = bytearray(path.read_bytes())
        content[-4096:] = b"\x5a" * 4096
        path.write_bytes(content)
    if fault == "read_only":
        path.chmod(stat.S_IRUSR)
    before = path.read_bytes()
    async with make_app().run_test(size=(120, 36)) as pilot:
        await pilot.press("c")
        await tells(pilot, said)
        if fault in ("newer", "read_only"):
            await shows(pilot, "Anvil")
            await pilot.press("enter")
            await shows(pilot, "Last counts")
            await pilot.press("n")
            await shows(pilot, "Enter goes back")
            await tells(pilot, said)
            await pilot.press("enter")
    path.chmod(stat.S_IRUSR | stat.S_IWUSR)
    assert path.read_bytes() == before


async def test_pictures(make_app):
    ids = a_shelf()
    begin_case(ids["Amber Kettle"])
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "13 plants")
        for keys, name in (((), "collection"), (("w",), "standing_out"), (("enter",), "plant")):
            await pilot.press(*keys)
            await settled(pilot)
            for width, height in ((40, 24), (80, 24), (120, 36), (160, 45)):
                await pilot.resize_terminal(width, height)
                await settled(pilot)
                compare(pilot.app, f"{name}_{width}x{height}")


ROW = overview(
    [PlantRecord(1, "x")],
    [LeafTotals(1, 9, TODAY, TODAY, 12, 30, 18, 0, 90, 500.0, 1, 0, 300, 3000.0)],
    TODAY,
    look_again=[1],
)[0]


@given(name=st.text(max_size=60), place=st.text(max_size=60), width=st.integers(30, 220))
def test_a_line_is_just_as_wide_as_it_should_be(name, place, width):
    row = overview([PlantRecord(1, name, place=place)], [LeafTotals(1)], TODAY)[0]
    for one in (row, ROW):
        assert cell_len(plant_line(one, "▁" * 9, width).plain) <= width
        assert len(header(width)) <= width
        assert plant_line(one, "", width).plain.isprintable()


@pytest.mark.parametrize(
    ("told", "drawn"),
    [
        ([], "         "),
        ([(0, 6)], "        ▇"),
        ([(179, 6), (0, 3)], "▇▇▇▇▇▇▇▇▄"),
        ([(200, 60), (100, 6), (50, 0)], "   ▇▇▇▁  "),
        ([(10, 0)], "        ▁"),
        ([(-3, 9), (0, 1)], "        ▇"),
    ],
)
def test_the_small_picture(told, drawn):
    counts = [(TODAY - dt.timedelta(days=ago), leaves) for ago, leaves in sorted(told, reverse=True)]
    assert spark(counts, TODAY) == drawn


def test_words_carry_what_colours_show():
    assert (ROW.losses, ROW.due) == ("rising", ("look again",))
    line = plant_line(ROW, "", 80).plain
    assert "falling -18" in line
    assert "rising x" in line
    assert line.rstrip().endswith("look")


async def test_a_plant_is_added_and_stood_at(make_app):
    a_shelf()
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "13 plants")
        await pilot.press("a")
        await shows(pilot, "Add a plant", "Enter goes to the next line")
        await type_text(pilot, "plain 1")
        await pilot.press("enter")
        await type_text(pilot, "Alocasia")
        await pilot.press("enter")
        await type_text(pilot, "north sill")
        await pilot.press("enter")
        await shows(pilot, "found a second plant called 'plain 1'")
        await pilot.press("end")
        await type_text(pilot, "b")
        await pilot.press("enter", "enter", "enter")
        await shows(pilot, "14 plants")
        assert pilot.app.screen.query_one(PlantTable).chosen.plant.name == "plain 1b"
    with open_journal(locations.journal()) as book:
        plant = plants.find_plant(book, "plain 1b")
    assert (plant.kind, plant.place) == ("Alocasia", "north sill")


async def test_the_first_plant_is_added_to_a_journal_that_is_not_there_yet(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await collection(pilot, "A adds one")
        await pilot.press("a", "escape")
        assert not locations.journal().exists()
        await pilot.press("a")
        await shows(pilot, "Add a plant")
        await type_text(pilot, "Fern")
        await pilot.press("enter", "enter", "enter")
        await shows(pilot, "1 plant, 0 leaves, 1 due", "Fern")


@pytest.mark.parametrize(
    ("p", "odds"),
    [
        (0.00034, "About 1 in 3,000"),
        (0.02, "About 1 in 50"),
        (0.0, "Fewer than 1 in 1,000,000"),
        (1e-9, "Fewer than 1 in 1,000,000"),
        (0.049, "About 1 in 20"),
    ],
)
def test_what_plants_share_is_said_in_words_a_grower_uses(p, odds):
    said = shared_said(Shared(("at porch",), 12, 8, 10, 60, p / 9, p, (1, 2)))
    assert f"{odds} findings as clear as this comes by chance" in said
    assert "8 of 12 such plants" in said
