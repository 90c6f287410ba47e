"""The rules screen: search, filters, entries in words, faults with their lines, reading again, the editor."""

import pytest

from diagnose.screens.rules import RulesScreen
from looking import settled, shows, text_of, type_text, until

HOUSE = """
[[evidence]]
id = "my_own"
cause = "chill"
speaks = "for"
strength = "slight"
when = { fact = "drooping", is = "lower_leaves" }
because = "On my sill this means cold feet."
origin = "my own notes"
fires = [{ drooping = "lower_leaves" }]
silent = [{ drooping = "none" }]
"""


@pytest.fixture
def house(tmp_path):
    folder = tmp_path / "house"
    folder.mkdir()
    (folder / "mine.toml").write_text(HOUSE, encoding="utf-8")
    return folder


async def rules(pilot):
    await pilot.press("r")
    await until(pilot, lambda: isinstance(pilot.app.screen, RulesScreen) and "entries" in text_of(pilot.app))


async def choose(pilot, select, value):
    pilot.app.screen.query_one(f"#{select}").value = value
    await pilot.pause()


async def test_entries_in_words(make_app):
    async with make_app().run_test(size=(120, 36)) as pilot:
        await rules(pilot)
        await shows(pilot, "cause     Rotting roots", "in rules/all.toml", "The whole plant hangs although")
        await pilot.press("down", "down")
        await shows(pilot, "Measure the lowest temperature")


async def test_search(make_app):
    async with make_app().run_test(size=(120, 36)) as pilot:
        await rules(pilot)
        await pilot.press("s")
        await type_text(pilot, "saucer thirsty")
        await shows(pilot, "1 entry", "evidence drought_against_saucer")
        await pilot.press("enter")
        assert pilot.app.focused.id == "entries"


async def test_letters_are_keys_only_while_nothing_is_typed(make_app):
    async with make_app().run_test(size=(120, 36)) as pilot:
        await rules(pilot)
        await shows(pilot, "S Search", "R Read again")
        await pilot.press("s")
        await until(pilot, lambda: "R Read again" not in text_of(pilot.app))
        await type_text(pilot, "reset")
        await shows(pilot, "no entries", "Nothing fits; take a letter or a filter away.")
        await pilot.press("escape")
        await shows(pilot, "S Search")


async def test_filters_by_kind_cause_and_origin(make_app, house):
    async with make_app(house=[house]).run_test(size=(120, 36)) as pilot:
        await rules(pilot)
        await choose(pilot, "kind", "evidence")
        await shows(pilot, "6 entries")
        await choose(pilot, "cause", "drought")
        await shows(pilot, "2 entries")
        await choose(pilot, "cause", "chill")
        await choose(pilot, "from", "house")
        await shows(pilot, "1 entry", "On my sill this means cold feet.", "(house)", "my own notes")


async def test_what_fired_in_the_case_in_hand(make_app, saved, house):
    path = saved(answers={"drooping": "lower_leaves"})
    async with make_app(path, house=[house]).run_test(size=(120, 36)) as pilot:
        await until(pilot, lambda: hasattr(pilot.app.screen, "questionnaire"))
        await pilot.press("f8")
        await shows(pilot, "Ranking and reasons")
        await pilot.press("r")
        await until(
            pilot, lambda: isinstance(pilot.app.screen, RulesScreen) and "entries" in text_of(pilot.app)
        )
        await choose(pilot, "from", "fired")
        await shows(pilot, "1 entry", "(house, fired)")


def beside(app):
    """The page beside the list without its spaces, since a long path may break a line anywhere."""
    return "".join(line.partition("│")[2].replace(" ", "") for line in text_of(app).splitlines())


async def test_reading_again_shows_faults_with_file_and_line(make_app, house):
    async with make_app(house=[house]).run_test(size=(160, 45), notifications=True) as pilot:
        await rules(pilot)
        broken = HOUSE.replace('strength = "slight"', 'strength = "enormous"')
        (house / "mine.toml").write_text(broken, encoding="utf-8")
        await pilot.press("r")
        await shows(pilot, "left out")
        await pilot.press("home")
        await until(
            pilot, lambda: "mine.toml,line6,evidencemy_own,strength:found'enormous'" in beside(pilot.app)
        )
        (house / "mine.toml").write_text(HOUSE, encoding="utf-8")
        await pilot.press("r")
        await until(pilot, lambda: "left out" not in text_of(pilot.app))


async def test_an_open_case_is_ranked_anew_with_rules_read_again(make_app, saved, house):
    path = saved(answers={"drooping": "lower_leaves", "standing_water": True, "night_low_c": 20.0})
    async with make_app(path, house=[house]).run_test(size=(120, 36)) as pilot:
        await until(pilot, lambda: hasattr(pilot.app.screen, "questionnaire"))
        screen = pilot.app.screen
        assert screen.questionnaire.diagnosis.ranking.of("chill").score_db == -8 - 5 + 2.5
        pilot.app.open_rules()
        await until(
            pilot, lambda: isinstance(pilot.app.screen, RulesScreen) and "entries" in text_of(pilot.app)
        )
        (house / "mine.toml").write_text(HOUSE.replace("slight", "strong"), encoding="utf-8")
        await pilot.press("r")
        await settled(pilot)
        await pilot.press("escape")
        await until(
            pilot, lambda: screen.questionnaire.diagnosis.ranking.of("chill").score_db == -8 - 5 + 12.5
        )


async def test_no_editor_is_told_with_the_path(make_app):
    async with make_app().run_test(size=(160, 45), notifications=True) as pilot:
        await rules(pilot)
        await pilot.press("e")
        await shows(pilot, "No editor is set ($VISUAL or $EDITOR).", "all.toml")


async def test_the_editor_gets_the_file_and_the_rules_are_read_again(make_app, house, monkeypatch):
    import contextlib

    asked = []
    monkeypatch.setenv("EDITOR", "some-editor --wait")
    monkeypatch.setattr("diagnose.screens.rules.subprocess.run", lambda words, check: asked.append(words))
    async with make_app(house=[house]).run_test(size=(120, 36), notifications=True) as pilot:
        monkeypatch.setattr(pilot.app, "suspend", contextlib.nullcontext)
        await rules(pilot)
        await choose(pilot, "from", "house")
        before = pilot.app.loader.loaded
        await pilot.press("e")
        await until(pilot, lambda: pilot.app.loader.loaded is not before)
    assert asked == [["some-editor", "--wait", str(house / "mine.toml")]]


async def test_an_editor_that_is_not_there_is_told_with_the_path(make_app, house, monkeypatch):
    import contextlib

    monkeypatch.setenv("EDITOR", "no-such-editor --wait")
    async with make_app(house=[house]).run_test(size=(160, 45), notifications=True) as pilot:
        monkeypatch.setattr(pilot.app, "suspend", contextlib.nullcontext)
        await rules(pilot)
        await choose(pilot, "from", "house")
        await pilot.press("e")
        await shows(pilot, "The editor no-such-editor --wait could not be", "mine.toml")


async def test_where_no_editor_can_be_opened_the_path_is_told(make_app, monkeypatch):
    monkeypatch.setenv("EDITOR", "some-editor")
    async with make_app().run_test(
        size=(160, 45), notifications=True
    ) as pilot:  # as a browser, it cannot suspend
        await rules(pilot)
        await pilot.press("e")
        await shows(pilot, "No editor can be opened from here", "all.toml")


async def test_entries_that_an_entry_names_are_gone_to_by_keyboard(make_app):
    async with make_app().run_test(size=(120, 36)) as pilot:
        await rules(pilot)
        await pilot.press("s")
        await type_text(pilot, "saucer thirsty")
        await pilot.press("enter", "enter")
        assert pilot.app.focused.id == "entry"
        await shows(pilot, "evidence drought_against_saucer", "G Go to")
        await pilot.press("g")
        await shows(pilot, "Where to go from here", "Does water stand in the saucer?")
        await pilot.press("enter")
        await shows(pilot, "question standing_water")
        await pilot.press("escape")
        assert isinstance(pilot.app.screen, RulesScreen)
