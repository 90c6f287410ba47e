"""The counting round: each count is on disk before the next plant shows, in few keys and on small terminals."""

import sqlite3
import stat

import pytest

from diagnose import locations
from diagnose.case import LeafCount
from diagnose.journal.counts import add_count
from diagnose.problems import BadInputError
from diagnose.screens.collection import CollectionScreen
from diagnose.screens.counting import CountingScreen, CountLine
from looking import compare, settled, shows, tells, until
from shelves import HOSTILE, STEADY, TODAY, add, kept_counts

SHORT = ([5, 5], [0, 0])


async def counting(pilot):
    """Go from the first screen to the round."""
    await pilot.press("c")
    await until(
        pilot, lambda: isinstance(pilot.app.screen, CollectionScreen) and pilot.app.screen.collection.rows
    )
    await pilot.press("c")
    await until(pilot, lambda: isinstance(pilot.app.screen, CountingScreen))


async def type_line(pilot, line):
    """Put a line into the round as if typed, and send it."""
    pilot.app.screen.query_one(CountLine).insert_text_at_cursor(line)
    await pilot.press("enter")


def fill_last_page(book, plant):
    """Recount one day until there is no room: each recount is a row more of the same table."""
    for n in range(1000):
        add_count(book, plant, LeafCount(date=TODAY, present=n))


async def test_every_count_is_on_disk_before_the_next_plant_shows(make_app):
    ids = [add(name, told=SHORT, ago=7) for name in ("Anvil", "Beacon", "Candle")]
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        await shows(pilot, "east sill", "1 of 3", "Anvil", "last: 5 leaves, 7 days ago")
        await type_line(pilot, "5 1 1")
        await shows(pilot, "Beacon", "2 of 3", "Saved, Anvil: 5 leaves, 1 new, 1 lost")
        assert kept_counts(ids[0])[-1] == (5, 1, 1)
        assert len(kept_counts(ids[1])) == 2
        await pilot.press("enter")
        await shows(pilot, "Candle", "3 of 3")
        assert kept_counts(ids[1])[-1] == (5, 0, 0)
        await type_line(pilot, "4")
        await shows(pilot, "That was the last plant.", "3 of 3 counted.")
        assert kept_counts(ids[2])[-1] == (4, None, None)
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, CollectionScreen))
        await shows(pilot, "3 plants, 14 leaves, 0 due")


async def test_s_skips_and_b_goes_back_only_on_an_empty_line(make_app):
    ids = [add(name, told=SHORT, ago=7) for name in ("Anvil", "Beacon")]
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        await pilot.press("b")
        await shows(pilot, "Anvil", "1 of 2")
        await pilot.press("s")
        await shows(pilot, "Beacon", "2 of 2")
        await pilot.press("b")
        await shows(pilot, "1 of 2")
        await type_line(pilot, "4 0 1 oldest")
        await shows(pilot, "Beacon")
        await pilot.press("b")
        await shows(pilot, "Anvil", "last: 4 leaves, 1 lost, today")
        await type_line(pilot, "3 0 2")
        await pilot.press("s")
        await shows(pilot, "That was the last plant.", "1 of 2 counted.")
        await pilot.press("b", "escape")
    assert kept_counts(ids[0]) == [(5, 0, 0), (5, 0, 0), (3, 0, 2)]
    assert len(kept_counts(ids[1])) == 2


async def test_what_does_not_add_up_is_asked_again_and_kept_if_insisted(make_app):
    plant = add("Anvil", told=SHORT, ago=7)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        await type_line(pilot, "4 1 0")
        await shows(pilot, "5 + 1 new - 0 lost makes 6, not 4", "1 of 1")
        assert pilot.app.screen.query_one(CountLine).value == "4 1 0"
        await type_line(pilot, " x")
        await shows(pilot, "Please type up to three numbers")
        assert len(kept_counts(plant)) == 2
        await pilot.press("backspace", "backspace", "space", "exclamation_mark", "enter")
        await shows(pilot, "That was the last plant.")
    assert kept_counts(plant)[-1] == (4, 1, 0)


async def test_a_plant_never_counted_has_no_last_time(make_app):
    plant = add("Anvil", told=None)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        await shows(pilot, "not counted yet")
        await pilot.press("enter")
        await shows(pilot, "There is no last count")
        await type_line(pilot, "6")
        await shows(pilot, "That was the last plant.")
    assert kept_counts(plant) == [(6, None, None)]


async def test_the_place_is_asked_for_and_only_its_plants_come(make_app):
    add("Anvil", told=SHORT, ago=7)
    add("Beacon", "hall [b]", SHORT, ago=20)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("c")
        await shows(pilot, "Beacon")
        await pilot.press("c")
        await shows(
            pilot, "Where do you count?", "hall [b]  1 plant, 1 due", "All plants, place by place  2 plants"
        )
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, CollectionScreen))
        await pilot.press("c", "enter")
        await shows(pilot, "hall [b]", "Beacon", "1 of 1")
        await pilot.press("escape", "c", "home", "enter")
        await shows(pilot, "All plants", "Anvil", "1 of 2")


async def test_a_full_disk_is_told_and_what_was_typed_can_be_sent_again(make_app):
    plant = add("Anvil", told=STEADY, ago=7)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        book = pilot.app.screen._journal
        pages = book.db.execute("PRAGMA page_count").fetchone()[0]
        book.db.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(BadInputError):
            fill_last_page(book, plant)
        before = kept_counts(plant)
        await type_line(pilot, "1234")
        await shows(pilot, "a full disk", "1 of 1")
        assert pilot.app.screen.query_one(CountLine).value == "1234"
        assert kept_counts(plant) == before
        book.db.execute("PRAGMA max_page_count = 1073741823")
        await pilot.press("enter")
        await shows(pilot, "That was the last plant.")
    assert kept_counts(plant) == [*before[:-1], (1234, None, None)]


async def test_a_locked_journal_is_told_and_what_was_typed_can_be_sent_again(make_app, monkeypatch):
    monkeypatch.setattr("diagnose.screens.counting.BUSY_S", 0.05)
    plant = add("Anvil", told=SHORT, ago=7)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        other = sqlite3.connect(locations.journal(), isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        await type_line(pilot, "5 0 0")
        await shows(pilot, "another program is writing to", "1 of 1")
        assert pilot.app.screen.query_one(CountLine).value == "5 0 0"
        other.execute("ROLLBACK")
        other.close()
        await pilot.press("enter")
        await shows(pilot, "That was the last plant.")
    assert len(kept_counts(plant)) == 3


@pytest.mark.parametrize("fault", ["read_only", "newer", "clock"])
async def test_nothing_is_asked_that_could_not_be_kept(make_app, fault):
    add("Anvil", told=SHORT, ago=-5 if fault == "clock" else 7)
    path = locations.journal()
    if fault == "newer":
        with sqlite3.connect(path) as db:
            db.execute("PRAGMA user_version = 99")
        db.close()
    if fault == "read_only":
        path.chmod(stat.S_IRUSR)
    said = {
        "read_only": "may not be written",
        "newer": "newer version",
        "clock": "this computer's clock says",
    }[fault]
    async with make_app().run_test(size=(80, 24)) as pilot:
        await pilot.press("c")
        await shows(pilot, "Anvil")
        await pilot.press("c")
        await shows(pilot, "Enter goes back")
        await tells(pilot, said)
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, CollectionScreen))
    path.chmod(stat.S_IRUSR | stat.S_IWUSR)


async def test_hostile_names_are_shown_as_they_are(make_app):
    for name in HOSTILE:
        add(name, "[b]sill", SHORT, ago=7)
    async with make_app().run_test(size=(80, 24)) as pilot:
        await counting(pilot)
        await shows(pilot, "[b]sill", "1 of 7")
        for name in sorted(HOSTILE):
            await shows(pilot, f"\n {name}\n")
            await pilot.press("enter")
            await shows(pilot, f"Saved, {name}: 5 leaves")


async def test_pictures(make_app):
    add("Anvil of the upper shelf, the one with the crack", told=SHORT, ago=7)
    add("Beacon", told=SHORT, ago=7)
    async with make_app().run_test(size=(40, 24)) as pilot:
        await counting(pilot)
        for width, height in ((40, 24), (80, 24), (120, 36), (160, 45)):
            await pilot.resize_terminal(width, height)
            await settled(pilot)
            compare(pilot.app, f"counting_{width}x{height}")
        await pilot.resize_terminal(40, 24)
        await type_line(pilot, "6 0 0")
        await shows(pilot, "not 6", "F1 Help  Esc Back  S Skip  B Before")
        await settled(pilot)
        compare(pilot.app, "counting_again_40x24")


async def test_a_shelf_takes_one_or_two_keys_a_plant(make_app):
    ids = [add(f"Plant {n:02}", told=SHORT, ago=7) for n in range(12)]
    async with make_app().run_test(size=(40, 20)) as pilot:
        await counting(pilot)
        for n in range(12):
            await pilot.press(*(["enter"] if n % 3 else ["4", "enter"]))
        await shows(pilot, "12 of 12 counted.")
    assert [kept_counts(one)[-1][0] for one in ids] == [4, 5, 5] * 4
