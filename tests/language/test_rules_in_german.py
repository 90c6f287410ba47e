"""Rules in another language rank alike: only what is read changes, never what is concluded."""

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import open_rules, read_rules
from diagnose.language import speak
from diagnose.measures.needs import PlantNeeds
from diagnose.rulebase import model
from diagnose.rulebase.rulebase import FIELDS
from diagnose.rulebase.translate import TEXTS
from po_files import po

NOT_READ = {
    "id": "a name that rules use",
    "subject": "the id of a subject",
    "unit": "a key; `unit_said` says it",
    "family": "a Latin name",
    "genera": "Latin names",
    "origin": "ids of sources, or words of the check",
    "water_origin": "ids of sources, or words of the check",
    "kind": "a key",
    "effort": "a key",
    "event": "a key",
    "strength": "a key",
    "otherwise": "a key",
    "speaks": "a key",
    "form": "a key; the vocabulary says it",
    "water": "a key; the vocabulary says it",
    "pace": "a key",
    "changes": "a key",
    "gives": "the id of a finding",
    "cause": "the id of a cause",
    "group": "a key",
    "caution": "ids of cautions",
    "advice": "ids of advice",
    "unless": "ids of causes",
    "tells": "ids of questions",
    "traits": "keys and ids of sources; the vocabulary says them",
    "fires": "facts and their values",
    "silent": "facts and their values",
    "title": "of a published work, quoted as it is",
    "author": "of a published work",
    "year": "of a published work",
    "where": "of a published work",
}
"""Fields that hold strings and are not translated, each with the reason."""
TABLES = {name: model.RuleFile.model_fields[name].annotation.__args__[0] for name in model.TABLES}


def holds_text(annotation):
    if annotation is str:
        return True
    return any(holds_text(inner) for inner in getattr(annotation, "__args__", ())) or (
        hasattr(annotation, "__value__") and holds_text(annotation.__value__)
    )


@pytest.fixture(scope="module")
def both():
    """The built-in rules in English and in German, ready to diagnose."""
    english = open_rules()
    speak("de")
    german = open_rules()
    speak("en")
    yield english, german
    english.close()
    german.close()


@pytest.mark.parametrize("table", model.TABLES)
def test_every_text_of_the_model_is_translated_or_is_none_to_read(table):
    fields = TABLES[table].model_fields
    texts = {name for name, field in fields.items() if holds_text(field.annotation)} - {"when", "ask_when"}
    assert texts - set(TEXTS[table]) <= NOT_READ.keys()
    assert set(TEXTS[table]) <= fields.keys()
    assert not set(TEXTS[table]) & NOT_READ.keys()


def test_of_a_choice_and_of_needs_nothing_else_is_read():
    texts = {name for name, field in model.Choice.model_fields.items() if holds_text(field.annotation)}
    assert texts == {"id", "label", "help"}
    for name, field in PlantNeeds.model_fields.items():
        need = next((a for a in field.annotation.__args__ if hasattr(a, "model_fields")), None)
        assert need is not None, name
        assert {n for n, f in need.model_fields.items() if holds_text(f.annotation)} <= {"origin"}


def test_the_hash_and_all_that_counts_is_the_same(both):
    english, german = (one.base for one in both)
    assert english.hash == german.hash
    assert german.problems == ()
    for table, fields in TEXTS.items():
        ours, theirs = (getattr(base, FIELDS[table]) for base in (english, german))
        assert list(ours) == list(theirs)
        for name, entry in ours.items():
            changed = {f for f in type(entry).model_fields if getattr(entry, f) != getattr(theirs[name], f)}
            assert changed <= set(fields)
    for cause, entry in english.causes.items():
        assert german.causes[cause].looks != entry.looks


@pytest.mark.parametrize("file", locations.demo_case_files(), ids=lambda file: file.stem)
def test_a_case_is_ranked_alike_in_both_languages(both, file):
    case, _ = read_case(file)
    ours, theirs = (one.diagnose(case) for one in both)
    assert [(one.id, one.score_db) for one in ours.ranking.causes] == [
        (one.id, one.score_db) for one in theirs.ranking.causes
    ]
    assert ours.firings == theirs.firings
    assert ours.gathered.values == theirs.gathered.values
    assert [q.id for q in ours.unanswered] == [q.id for q in theirs.unanswered]


HOUSE = """[[finding]]
id = "door_open"
text = "the door stands open"

[[question]]
id = "door"
subject = "air"
text = "Is the door open?"
help = "Go and look."
why = "It lets the damp out."
kind = "yes_no"
effort = "look"

[[evidence]]
id = "door_dries"
cause = "drought"
speaks = "for"
strength = "slight"
when = { fact = "door", is = "yes" }
because = "The door stands open ({door})."
origin = "my own eyes"
fires = [ { door = "yes" } ]
silent = [ { door = "no" } ]
"""


@pytest.fixture
def house(tmp_path):
    (tmp_path / "door.toml").write_text(HOUSE, encoding="utf-8")
    return tmp_path


def test_a_house_folder_brings_its_own_translations(house):
    texts = {
        "Is the door open?": "Steht die Tür offen?",
        "The door stands open ({door}).": "Die Tür ({tuer}).",
    }
    po(house / "languages" / "de", **texts)
    speak("de")
    base = read_rules([house])
    assert base.problems == ()
    assert base.questions["door"].text == "Steht die Tür offen?"
    assert base.questions["door"].why == "It lets the damp out."  # not translated
    assert (
        base.evidence["door_dries"].because == "The door stands open ({door})."
    )  # would fill in another fact
    assert base.vocabulary["door"].meaning == "Steht die Tür offen?"
    assert base.vocabulary["door"].words == {"yes": "ja", "no": "nein"}


def test_the_built_in_translation_stands_against_a_house_folder_s(house):
    english = read_rules().subjects["air"].name
    po(house / "languages" / "de", **{english: "Etwas anderes"})
    speak("de")
    assert read_rules([house]).subjects["air"].name == "Luft"


def test_a_broken_translation_of_a_house_folder_is_a_fault_of_the_rule_base(house):
    (house / "languages" / "de").mkdir(parents=True)
    (house / "languages" / "de" / "door.po").write_text(
        'msgid "Is the door open?"\nmsgstr "Steht', encoding="utf-8"
    )
    speak("de")
    base = read_rules([house])
    (problem,) = base.problems
    assert problem.file.endswith("door.po")
    assert problem.line == 2
    assert base.questions["door"].text == "Is the door open?"
    assert base.subjects["air"].name == "Luft"
