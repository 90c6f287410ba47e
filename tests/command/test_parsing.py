"""argparse speaks the language that the rest of the program speaks."""

import argparse
import gettext
from pathlib import Path

import pytest

from diagnose.command import main
from diagnose.command.parsing import ARGPARSE_SAYS


@pytest.mark.parametrize("text", ARGPARSE_SAYS)
def test_argparse_has_these_texts(text):
    source = Path(argparse.__file__).read_text(encoding="utf-8")
    assert repr(text) in source or f'"{text}"' in source


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--help"], "Aufruf: diagnose"),
        (["rank", "--help"], "Optionen:"),
        (["rank"], "diagnose rank: Fehler: diese Argumente fehlen: FALL"),
        (["nonsense"], "nicht möglich: 'nonsense'"),
        (["next", "x.toml", "--show", "many"], "erwartet: eine ganze Zahl, gefunden:"),
        (["ask"], "eines dieser Argumente ist nötig"),
        (["rank", "x.toml", "--nonsense"], "unbekannte Argumente: --nonsense"),
        (["rank", "x.toml", "--rules"], "hier fehlt ein Wert"),
    ],
)
def test_its_own_words_are_translated_and_errors_end_with_2(words, said, monkeypatch, capsys):
    monkeypatch.setenv("LANGUAGE", "de")
    with pytest.raises(SystemExit) as end:
        main(words)
    shown = capsys.readouterr()
    assert said in " ".join((shown.out + shown.err).split())
    assert end.value.code == (0 if "--help" in words else 2)


def test_english_stays_as_argparse_says_it(monkeypatch, capsys):
    monkeypatch.setenv("LANGUAGE", "en")
    with pytest.raises(SystemExit):
        main(["rank"])
    assert "the following arguments are required: CASE" in capsys.readouterr().err
    assert gettext.gettext("options") == "options"


def test_a_decimal_comma_is_a_decimal_point(tmp_path):
    journal = ["--journal", str(tmp_path / "j.sqlite")]
    assert main(["journal", "add", "Anvil", "--pot-cm", "12,5", *journal]) == 0
