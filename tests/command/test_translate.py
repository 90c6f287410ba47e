"""`diagnose rules translate`: from a house rule's sentence to the same sentence in another language on the ranking."""

import io
import os
import shutil

import pytest
from babel.messages.pofile import read_po, write_po

from diagnose import locations
from diagnose.command import main

RULE = """
[[evidence]]
id = "mine"
cause = "drought"
speaks = "for"
strength = "decisive"
when = { fact = "medium_now", is = "bone_dry" }
because = "The soil is {medium_now} and the pot rattles."
origin = "my own plants"
fires = [ { medium_now = "bone_dry" } ]
silent = [ { medium_now = "soggy" } ]
"""
CASE = 'format = 1\ndate = 2026-03-01\n[answers]\nmedium_now = "bone_dry"\n'
ENGLISH = "The soil is {medium_now} and the pot rattles."


@pytest.fixture
def house(tmp_path):
    folder = tmp_path / "house"
    folder.mkdir()
    (folder / "mine.toml").write_text(RULE, encoding="utf-8")
    return folder


@pytest.fixture
def said(tmp_path, house, capsys, monkeypatch):
    """What the ranking says in German."""
    case = tmp_path / "case.toml"
    case.write_text(CASE, encoding="utf-8")

    def said():
        monkeypatch.setenv("LANGUAGE", "de")
        capsys.readouterr()
        code = main(["rank", str(case), "--rules", str(house)])
        out, err = capsys.readouterr()
        return code, " ".join(out.split()), err

    return said


def translate(file, english, german):
    catalogue = read_po(io.BytesIO(file.read_bytes()))
    catalogue.get(english).string = german
    with file.open("wb") as out:
        write_po(out, catalogue)


def test_a_sentence_of_a_house_rule_is_said_as_it_was_translated(house, said, capsys):
    assert main(["rules", "translate", "de", str(house)]) == 0
    file = house / "languages" / "de" / "rules.po"
    assert "1 text without a translation" in capsys.readouterr().err
    assert "the pot rattles" in said()[1]
    translate(file, ENGLISH, "Die Erde ist {medium_now}, der Topf klappert.")
    code, out, err = said()
    assert (code, err) == (0, "")
    assert "der Topf klappert" in out
    assert "the pot rattles" not in out


def test_a_translation_with_a_gap_that_is_not_there_is_left_out(house, said):
    main(["rules", "translate", "de", str(house)])
    translate(house / "languages" / "de" / "rules.po", ENGLISH, "Die Erde ist {feuchte}.")
    assert "the pot rattles" in said()[1]


def test_translations_are_kept_and_new_texts_added(house):
    main(["rules", "translate", "de", str(house)])
    file = house / "languages" / "de" / "rules.po"
    translate(file, ENGLISH, "Der Topf klappert.")
    second = RULE.replace('"mine"', '"other"').replace("rattles", "is light")
    (house / "other.toml").write_text(second, encoding="utf-8")
    assert main(["rules", "translate", "de", str(house)]) == 0
    kept = read_po(io.BytesIO(file.read_bytes()))
    assert kept.get(ENGLISH).string == "Der Topf klappert."
    assert kept.get(ENGLISH.replace("rattles", "is light")).string == ""


def test_a_new_language_begins_with_its_own_plural(house):
    assert main(["rules", "translate", "pl", str(house)]) == 0
    text = (house / "languages" / "pl" / "rules.po").read_text(encoding="utf-8")
    assert '"Language: pl' in text
    assert "nplurals=3" in text  # Polish has three: Unicode CLDR, "Language Plural Rules"


def test_all_built_in_rules_can_be_translated_anew(tmp_path, capsys):
    copy = tmp_path / "rules"
    shutil.copytree(locations.built_in_rules(), copy, ignore=shutil.ignore_patterns("languages"))
    assert main(["rules", "translate", "nl", str(copy)]) == 0
    names = {file.stem for file in (copy / "languages" / "nl").iterdir()}
    assert {"questions", "causes", "advice", "evidence"} <= names
    assert "rules" in capsys.readouterr().err


def one_sentence(capsys, *words):
    assert main(["rules", "translate", *map(str, words)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert ".." not in err.replace("/", "").replace("...", "")
    return err


@pytest.mark.parametrize("code", ["xx", "en", "DE", "german", "", "../de"])
def test_a_code_that_is_no_other_language_is_refused(house, capsys, code):
    assert main(["rules", "translate", code, str(house)]) == 2
    assert "the code of a language other than English" in capsys.readouterr().err
    assert not (house / "languages").exists()


def test_a_folder_that_is_none_is_refused(house, tmp_path, capsys):
    assert "no such folder" in one_sentence(capsys, "de", tmp_path / "nowhere")
    assert "found a file" in one_sentence(capsys, "de", house / "mine.toml")
    (tmp_path / "empty").mkdir()
    assert "no texts to translate" in one_sentence(capsys, "de", tmp_path / "empty")


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b'msgid "a"\nmsgstr "b"\nnonsense\n', "line 3"),
        (b'msgid "caf\xe9"\nmsgstr ""\n', "not UTF-8"),
    ],
)
def test_a_broken_file_is_one_sentence_and_nothing_is_written(house, capsys, content, told):
    file = house / "languages" / "de" / "rules.po"
    file.parent.mkdir(parents=True)
    file.write_bytes(content)
    said = one_sentence(capsys, "de", house)
    assert str(file) in said
    assert told in said
    assert file.read_bytes() == content


def test_a_place_that_cannot_be_written_is_one_sentence(house, capsys):
    (house / "languages").write_text("a file where a folder should be", encoding="utf-8")
    assert "a folder that can be written to" in one_sentence(capsys, "de", house)
    (house / "languages").unlink()
    if os.geteuid() != 0:  # root may write anywhere
        house.chmod(0o500)
        assert "a folder that can be written to" in one_sentence(capsys, "de", house)
        house.chmod(0o700)
