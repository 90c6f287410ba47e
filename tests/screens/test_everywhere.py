"""What holds on every screen: keys from one registry, hostile text, colours, small terminals."""

import re

import pytest
from textual.color import Color

from diagnose.language import _, languages
from diagnose.screens.actions import ACTIONS, EVERYWHERE, PLACES, bindings, key_said, keys_said
from diagnose.screens.key_line import KeyLine
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.themes import DARK, LIGHT
from looking import shows, text_of, until
from shelves import add

ALLOWED = re.compile(r"^(f([1-9]|10)|[a-zA-Z]|[0-9]|enter|escape|tab|left|right|up|down)$")
"""Keys that no multiplexer, editor or keyboard layout takes away."""


JOURNAL = {
    "collection": ((), "1 plant, 8 leaves"),
    "standing_out": (("w",), "No plant loses more"),
    "plant": (("enter",), "Last counts"),
    "counting": (("c",), "1 of 1"),
}
"""Places of the journal's screens -> keys from the collection, and what shows there."""


async def go(pilot, place):
    """Go to a place of the registry from a started application."""
    if place == "start":
        return
    if place == "rules":
        await pilot.press("r")
        await shows(pilot, "entries")
        return
    if place in JOURNAL:
        keys, said = JOURNAL[place]
        add("Anvil")
        await pilot.press("c")
        await shows(pilot, "Anvil")
        await pilot.press(*keys)
        await shows(pilot, said)
        return
    await pilot.press("n")
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    await pilot.press(*{"questions": [], "list": ["f7"], "review": ["f8"]}[place])
    await shows(
        pilot, {"questions": "F3 How", "list": "All questions", "review": "Ranking and reasons"}[place]
    )


@pytest.mark.parametrize("place", [place for place in PLACES if place != EVERYWHERE])
async def test_at_most_six_keys_are_shown_help_first_and_all_fit_at_80(make_app, place):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await go(pilot, place)
        await until(pilot, lambda: "F1 Help" in text_of(pilot.app).splitlines()[-1])
        keys = pilot.app.screen.query_one(KeyLine).shown
        assert 2 <= len(keys) <= 6
        assert keys[0][0] == "f1"
        said = [f"{key} {does}" for _name, key, does in keys]
        assert text_of(pilot.app).splitlines()[-1].strip() == "  ".join(said)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("place", [place for place in PLACES if place != EVERYWHERE])
def test_in_every_language_the_keys_of_a_place_fit_at_80(place, language, spoken_in):
    spoken_in(language)
    shown = [f"{key_said(one.key.split(',')[0])} {_(one.description)}" for one in bindings(place) if one.show]
    assert len("  ".join(shown)) <= 76  # two cells stay free on either side


@pytest.mark.parametrize("place", [place for place in PLACES if place != EVERYWHERE])
async def test_on_a_narrow_screen_the_keys_take_more_lines_and_none_is_cut(make_app, place):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await go(pilot, place)
        await pilot.resize_terminal(40, 24)
        keys = pilot.app.screen.query_one(KeyLine).shown
        said = [f"{key} {does}" for _name, key, does in keys]
        await until(pilot, lambda: all(one in text_of(pilot.app) for one in said))
        assert all(len(line) <= 40 for line in text_of(pilot.app).splitlines())


async def test_the_line_of_keys_can_be_clicked(make_app):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "F1 Help" in text_of(pilot.app))
        await pilot.click(KeyLine, offset=(3, 0))
        await shows(pilot, "What the keys do")


@pytest.mark.parametrize("place", [place for place in PLACES if place != EVERYWHERE])
async def test_every_action_of_the_registry_can_be_done_where_it_says(make_app, place):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await go(pilot, place)
        for action in ACTIONS:
            if action.where in (EVERYWHERE, place):
                assert hasattr(pilot.app.screen, f"action_{action.name.partition('(')[0]}")


@pytest.mark.parametrize("place", [place for place in PLACES if place != EVERYWHERE])
async def test_help_shows_every_action_of_the_place_first(make_app, place):
    async with make_app().run_test(size=(80, 60)) as pilot:
        await go(pilot, place)
        await pilot.press("f1")
        await shows(pilot, "What the keys do")
        seen = text_of(pilot.app)
        assert "(where you are)" in seen.split("\n\n")[1]
        for action in ACTIONS:
            if action.where == place:
                assert keys_said(action) in seen
        await pilot.press("escape")
        await until(pilot, lambda: "What the keys do" not in text_of(pilot.app))


@pytest.mark.parametrize("place", PLACES)
def test_keys_are_safe_and_used_once_a_place(place):
    keys = [key for binding in bindings(place) for key in binding.key.split(",")]
    assert all(ALLOWED.match(key) for key in keys)
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("place", ["list", "rules", "review", "questions", "plant", "counting"])
async def test_esc_goes_back_from_everywhere(make_app, place):
    async with make_app().run_test(size=(80, 24)) as pilot:
        await go(pilot, place)
        for _ in range(3):
            await pilot.press("escape")
            await pilot.pause()
        await shows(pilot, "Start a new case")


HOSTILE = ["[", "[/", "[b]bold[/b]", "[@click=app.quit]x", "$accent \\["]


@pytest.mark.parametrize("text", HOSTILE)
async def test_hostile_text_is_shown_as_it_is(make_app, saved, tmp_path, text):
    quoted = text.replace("\\", "\\\\")
    house = tmp_path / "house.toml"
    house.write_text(
        f'[[question]]\nid = "odd"\nsubject = "plant"\nkind = "choice"\neffort = "look"\ntext = "Odd {quoted}?"\n'
        f'help = "Help {quoted}"\nwhy = "Why {quoted}"\n'
        f'choices = [{{ id = "a", label = "one {quoted}" }}, {{ id = "b", label = "two {quoted}" }}]\n'
        f'[[cause]]\nid = "odd_cause"\nname = "Cause {quoted}"\nwhat = "What {quoted}"\nlooks = "Looks {quoted}"\n'
        f'settles = "Settles {quoted}"\nprior_db = 20\norigin = "my notes {quoted}"\n',
        encoding="utf-8",
    )
    path = saved(
        title=f"Title {text}",
        story=text,
        plant={"name": text, "profile": text},
        answers={"odd": "a", "nonsense": text},
    )
    async with make_app(path, house=[house]).run_test(size=(120, 36), notifications=True) as pilot:
        await shows(pilot, "Not all could be used")
        await pilot.press("enter")
        pilot.app.screen.go_to("odd")
        await shows(
            pilot, f"Title {text}", f"Odd {text}?", f"one {text}   your answer", f"Help {text}", f"Why {text}"
        )
        await pilot.press("f3")
        await shows(pilot, f"Why {text}", "What each answer would tell (")
        await pilot.press("escape", "f7")
        await shows(pilot, "All questions", f"one {text}")
        await pilot.press("escape", "f8")
        await shows(pilot, f"Cause {text}")
        await pilot.press("2")
        await shows(pilot, f"What {text}", f"Settles {text}")
        await pilot.press("r")
        await shows(pilot, f"Looks {text}", "entries")
        await pilot.press("f2")
        await shows(pilot, "Find a question, cause, rule, case or action")
        await pilot.press(*"odd")
        await shows(pilot, f"Odd {text}?")
        await pilot.press("escape", "escape", "escape", "escape")
        await shows(pilot, "Start a new case", f"Title {text}")


async def test_the_palette_leads_to_questions_rules_cases_and_actions(make_app, saved):
    saved(title="Juniper")
    async with make_app().run_test(size=(120, 36)) as pilot:
        await go(pilot, "questions")
        await pilot.press("f2")
        await shows(pilot, "Find a question", "Take the last answer back.")
        await pilot.press(*"saucer")
        await shows(
            pilot, "Does water stand in the saucer?", "question, open", "evidence drought_against_saucer"
        )
        await pilot.press("enter")
        await shows(pilot, "Does water stand in the saucer?", "How to look")
        await pilot.press("f2", *"juniper")
        await shows(pilot, "your case")
        await pilot.press("enter")
        await shows(pilot, "Juniper", "What kind of plant is it?")


async def test_no_color_shows_no_colour_and_marks_the_row_all_the_same(make_app, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    app = make_app()
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        await shows(pilot, "Start a new case")
        assert app.theme == "plain"
        await pilot.press("t")
        await shows(pilot, "NO_COLOR is set")
        styles = [segment.style for strip in app.screen._compositor.render_strips() for segment in strip]
        colours = {str(c.name) for style in styles if style for c in (style.color, style.bgcolor) if c}
        assert colours <= {"default"}
        row = next(s for s in app.screen._compositor.render_strips() if "Start a new case" in s.text)
        assert any(segment.style.reverse for segment in row if "Start" in segment.text)


PAIRS = [
    *(
        (name, back)
        for name in ("foreground", "muted", "accent", "for", "against")
        for back in ("background", "selected")
    ),
    ("background", "foreground"),
]


@pytest.mark.parametrize("theme", [DARK, LIGHT], ids=lambda theme: theme.name)
@pytest.mark.parametrize("pair", PAIRS, ids="-on-".join)
def test_text_contrast_meets_wcag_aa(theme, pair):
    colours = {
        "foreground": theme.foreground,
        "background": theme.background,
        "accent": theme.accent,
    } | theme.variables
    front, back = (Color.parse(colours[name]) for name in pair)
    assert contrast(front, back) >= 4.5  # WCAG 2.2, success criterion 1.4.3


def contrast(one, other):
    """Return the contrast ratio as WCAG 2.2 defines it."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def luminance(color):
    """Return the relative luminance of an sRGB colour, from the definition in WCAG 2.2."""
    channels = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (v / 255 for v in color.rgb)
    ]
    return 0.2126 * channels[0] + 0.7152 * channels[1] + 0.0722 * channels[2]


def test_contrast_is_computed_as_the_standard_says():
    # W3C, Understanding 1.4.3: #767676 on white is the lightest grey that passes, at 4.54 to 1; from memory
    assert contrast(Color.parse("#767676"), Color.parse("#ffffff")) == pytest.approx(4.54, abs=0.005)
    assert contrast(Color.parse("#000000"), Color.parse("#ffffff")) == pytest.approx(21)
