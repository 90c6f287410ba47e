"""Which language is spoken, and what happens when its files are new, known, out of reach or broken."""

import datetime as dt
import os
import subprocess
import sys

import pytest
from babel.core import Locale
from hypothesis import given
from hypothesis import strategies as st

from diagnose import locations
from diagnose.language import (
    _,
    catalogue,
    compiled,
    date_said,
    date_short,
    day_in_short,
    day_said,
    gaps,
    languages,
    month_short,
    ngettext,
    numeral,
    pgettext,
    preferred,
    quoted,
    speak,
    spoken,
    translated_by,
)
from diagnose.problems import untranslated
from po_files import HEAD, po


@pytest.fixture
def own_language(tmp_path, monkeypatch):
    """A program whose messages lie in a folder of the test's own."""
    monkeypatch.setattr(catalogue, "_FOLDER", tmp_path)
    return po(tmp_path / "de", Leaf="Blatt", Pot="Topf")


@pytest.mark.parametrize(
    ("environment", "language"),
    [
        # GNU gettext manual, "Locale variables": LANGUAGE, then LC_ALL, LC_MESSAGES, LANG
        ({"LANGUAGE": "de", "LC_ALL": "en_GB.UTF-8", "LANG": "en_GB.UTF-8"}, "de"),
        ({"LC_ALL": "de_AT.UTF-8", "LC_MESSAGES": "en_GB.UTF-8"}, "de"),
        ({"LC_MESSAGES": "de_DE.UTF-8", "LANG": "en_GB.UTF-8"}, "de"),
        ({"LANG": "de_CH.UTF-8@euro"}, "de"),
        ({"LANG": "DE"}, "de"),
        ({"LANGUAGE": "tlh:de:en"}, "de"),  # a list, most wanted first
        ({"LANGUAGE": "en:de"}, "en"),
        ({"LANGUAGE": "", "LANG": "de_DE"}, "de"),
        ({"LC_ALL": "C", "LANG": "de_DE"}, "en"),
        ({"LC_ALL": "C.UTF-8", "LANG": "de_DE"}, "en"),
        ({"LC_ALL": "POSIX", "LANG": "de_DE"}, "en"),
        ({"LANG": "tlh_QX.UTF-8"}, "en"),
        ({}, "en"),
    ],
)
def test_the_environment_is_read_as_gettext_reads_it(environment, language):
    assert preferred(environment) == language


@pytest.mark.parametrize("code", ["tlh", "", "..", "DE", "de/../de", "\0"])
def test_an_unknown_code_leaves_english(code):
    speak("de")
    assert speak(code) == ()
    assert spoken() == "en"
    assert _("did you mean {word}") == "did you mean {word}"
    assert numeral(1.5) == "1.5"


def test_a_catalogue_is_compiled_once_and_then_read(own_language, monkeypatch):
    speak("de")
    assert _("Leaf") == "Blatt"
    (kept,) = locations.compiled_languages().iterdir()
    monkeypatch.setattr(compiled, "_compile", lambda *_: pytest.fail("compiled again"))
    speak("de")
    assert _("Pot") == "Topf"
    assert list(locations.compiled_languages().iterdir()) == [kept]


def test_a_file_that_is_being_written_is_not_read(own_language):
    po(own_language, ".new-half", Leaf="Bl", Stem="Stiel")
    speak("de")
    assert (_("Leaf"), _("Stem")) == ("Blatt", "Stem")


def test_a_changed_file_is_seen_at_the_next_start(own_language):
    speak("de")
    po(own_language, Leaf="Laub", Pot="Topf")
    os.utime(own_language / "some.po", ns=(1, 1))
    speak("de")
    assert _("Leaf") == "Laub"


def test_a_cache_that_cannot_be_written_costs_nothing_but_time(own_language):
    locations.compiled_languages().parent.mkdir(parents=True)
    locations.compiled_languages().write_text("a file where the folder should be")
    assert speak("de") == ()
    assert _("Leaf") == "Blatt"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (HEAD + 'msgid "Leaf"\nmsgstr "Blatt\n', 6),
        (HEAD + 'msgid "Leaf"\nmsgstr Blatt\n', 6),
        (HEAD + 'msgid "Leaf"\n\nhello\nmsgstr "Blatt"\n', 7),
        ('msgid "Leaf"\nmsgstr "Bl\udce4tt"\n', 2),
    ],
    ids=["no closing quote", "no quotes", "a stray line", "not UTF-8"],
)
def test_a_broken_file_is_told_with_its_line_and_said_in_english(own_language, text, line):
    (own_language / "broken.po").write_bytes(text.encode(errors="surrogateescape"))
    for _start in range(2):  # it is told until it is mended
        (broken,) = speak("de")
        assert (broken.file, broken.line) == (str(own_language / "broken.po"), line)
        assert spoken() == "de"
        assert _("Leaf") == "Blatt"  # the sound file's
    sentence = untranslated(broken).sentence()
    assert sentence.startswith(
        f"{own_language / 'broken.po'}, line {line}: found text that is no translation"
    )
    assert "said in English." in sentence


@given(st.integers(0), st.integers(0), st.binary(max_size=5))
def test_no_damage_to_a_file_stops_the_program(tmp_path_factory, start, length, by):
    sound = (catalogue._FOLDER / "de" / "rulebase.po").read_bytes()[:4000]
    start %= len(sound)
    folder = tmp_path_factory.mktemp("de") / "de"
    folder.mkdir()
    (folder / "some.po").write_bytes(sound[:start] + by + sound[start + length % 50 :])
    messages, broken = translated_by([folder])
    assert len(broken) <= 1
    messages.gettext("yes")
    messages.ngettext("{count} day", "{count} days", 3)


def test_a_translation_that_fills_in_something_else_is_none(tmp_path):
    folder = po(tmp_path / "de", **{"{n} leaves": "{m} Blätter", "{n} pots": "{n} Töpfe", "{one}": "{ein"})
    messages, broken = translated_by([folder])
    assert not broken
    assert [messages.gettext(text) for text in ("{n} leaves", "{n} pots", "{one}")] == [
        "{n} leaves",
        "{n} Töpfe",
        "{one}",
    ]


def test_the_first_folder_that_translates_a_message_decides(tmp_path):
    first = po(tmp_path / "one" / "de", Leaf="Blatt", Pot="")
    second = po(tmp_path / "two" / "de", Leaf="Laub", Pot="Topf")
    messages, _broken = translated_by([first, tmp_path / "none", second])
    assert (messages.gettext("Leaf"), messages.gettext("Pot")) == ("Blatt", "Topf")


def test_a_language_once_compiled_is_spoken_without_its_compiler():
    script = (
        "import sys; from diagnose.command import main; main(sys.argv[1:]); sys.exit('babel' in sys.modules)"
    )
    rank = [sys.executable, "-c", script, "rank", str(locations.demo_case_files()[0])]
    for loaded in (1, 0):
        done = subprocess.run(
            rank, capture_output=True, text=True, check=False, env=os.environ | {"LANGUAGE": "de"}
        )
        assert done.returncode == loaded, done.stderr
        assert "Warum" in done.stdout


@pytest.mark.parametrize("language", languages())
def test_names_and_marks_are_those_of_unicode_cldr(language):
    speak(language)
    locale = Locale.parse(language)
    for month in range(1, 13):
        date = dt.date(2026, month, 8)
        assert locale.months["format"]["wide"][month] in date_said(date)
        assert month_short(month) == locale.months["format"]["abbreviated"][month]
        assert month_short(month) in date_short(date)
    for day in range(7):
        date = dt.date(2026, 11, 2 + day)
        assert locale.days["format"]["wide"][date.weekday()] in day_said(date)
        assert locale.days["format"]["abbreviated"][date.weekday()] in day_in_short(date)
    marks = locale.number_symbols["latn"]
    assert numeral(12345.6, ",.1f") == f"12{marks['group']}345{marks['decimal']}6"


def test_german_writes_as_german_does():
    speak("de")
    date = dt.date(2026, 11, 8)  # a Sunday
    assert date_said(date) == "8. November 2026"
    assert day_said(date) == "Sonntag, 8. November 2026"
    assert ngettext("{count} day", "{count} days", 1).format(count=1) == "1 Tag"
    assert ngettext("{count} day", "{count} days", 0).format(count=0) == "0 Tage"
    assert pgettext("unit", "days") == "Tage"
    assert quoted("soil") == "„soil“"


@given(st.text())
def test_a_quoted_text_stays_on_its_line_and_keeps_its_words(text):
    said = quoted(text)
    assert len(said.splitlines()) == 1
    if text.isprintable() and "\\" not in text:
        assert said[1:-1] == text
        assert said[0] == ('"' if "'" in text else "'")


@pytest.mark.parametrize(
    ("text", "names"),
    [("plain", []), ("{a} and {b}", ["a", "b"]), ("{a!r:>9}", ["a!r:>9"]), ("{{a}}", []), ("} {", ["} {"])],
)
def test_gaps_are_the_names_in_braces(text, names):
    assert gaps(text) == names
