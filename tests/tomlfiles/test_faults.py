"""What a model complains of is said in the tool's own words, in every language."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case
from diagnose.language import SOURCE, languages, speak
from diagnose.problems import BadInputError
from diagnose.rulebase.model import RuleFile
from diagnose.settings import Settings
from diagnose.tomlfiles.read import fit

ODD = (
    1, -5, 1e20, 1.234, float("nan"), 10**30, True, "x", "", "Yes 1", "15", "1,5", "x" * 3000,
    dt.date(2026, 1, 1), dt.datetime(2026, 1, 1, 5, tzinfo=dt.UTC), dt.time(5), [], [1], ["a"], [[1]], {}, {"a": 1}, {"fact": "x"},
)  # fmt: skip
ENTRY = {
    "id": "a", "override": False, "order": 1, "subject": "light", "text": "A text.", "help": "Look.", "why": "So.",
    "kind": "choice", "effort": "look", "unit": "cm", "least": 0, "most": 4, "choices": [], "share_yes": 0.5,
    "typical": [1], "event": "moved", "ask_when": {"fact": "b", "is": "c"}, "skip_because": "so", "caution": ["a"],
    "when": {"all": [{"fact": "b", "between": [1, 2]}]}, "because": "It is.", "origin": "me, today", "fires": [{"b": 1}],
    "silent": [{"b": 2}], "gives": "c", "cause": "d", "speaks": "for", "strength": "slight", "prior_db": 0.5,
    "needs": {}, "traits": {"a": "me, today"}, "water": "top_dry", "look_again_days": 3, "year": "1999", "title": "A title",
}  # fmt: skip
CASE = {
    "format": 1, "date": dt.date(2026, 1, 1), "title": "", "plant": {"name": "a"}, "place": {"country": "GB"},
    "leaf_history": [{"date": dt.date(2026, 1, 1), "present": 5, "new": 1}], "leaves": [{"opened": dt.date(2026, 1, 1)}],
    "events": [{"date": dt.date(2026, 1, 1), "kind": "moved", "note": ""}], "answers": {"a": 1}, "not_known": ["a"],
}  # fmt: skip
THEIRS = (
    "Input",
    "should",
    "valid",
    "finite",
    "Unable",
    "Tuple",
    "String",
    "characters'",
    "validation",
    "pattern",
)
"""Words of the model's library that a grower is not to read."""


def complaints(data, model):
    try:
        fit(data, "", model, None)
    except BadInputError as error:
        return [(problem.found, problem.expected, problem.mend) for problem in error.problems]
    return []


def spoiled():
    """Yield data with one odd value somewhere, and the model it is no instance of."""
    for value in ODD:
        for table in RuleFile.model_fields:
            yield {table: value}, RuleFile
            yield {table: [value]}, RuleFile
            for field in ENTRY:
                yield {table: [ENTRY | {field: value}]}, RuleFile
        for field, sound in CASE.items():
            yield CASE | {field: value}, Case
            if isinstance(sound, dict):
                yield from ((CASE | {field: sound | {name: value}}, Case) for name in sound)
            if isinstance(sound, list) and isinstance(sound[0], dict):
                yield from ((CASE | {field: [sound[0] | {name: value}]}, Case) for name in sound[0])
        yield from (({field: value}, Settings) for field in Settings.model_fields)


@pytest.mark.parametrize("language", languages())
def test_nothing_is_said_in_the_words_of_the_model_s_library(language):
    speak(language)
    said = {text for data, model in spoiled() for one in complaints(data, model) for text in one[1:]}
    assert len(said) > 100
    assert [text for text in said if any(word in text.split() for word in THEIRS)] == []


def test_german_leaves_no_english_words():
    """What is expected differs between the languages, but for names and numbers."""
    english = {one for data, model in spoiled() for one in complaints(data, model)}
    speak("de")
    german = {one for data, model in spoiled() for one in complaints(data, model)}
    same = {expected for _, expected, _ in english} & {expected for _, expected, _ in german}
    assert same <= {"1"}
    assert {mend for *_, mend in english} & {mend for *_, mend in german} == {""}


@given(st.text(max_size=80), st.sampled_from(["plant", "answers", "title"]))
def test_any_text_may_stand_in_a_complaint(text, key):
    for language in (SOURCE, "de"):
        speak(language)
        for data, model in (({key: text}, Settings), ({"date": f"{text}?", key: {text: 1}}, Case)):
            with pytest.raises(BadInputError) as caught:
                fit(data, "", model, None)
            assert all(problem.sentence().isprintable() for problem in caught.value.problems)


@pytest.mark.parametrize("bare", [0, 20260101, 1.5, "0", "20260101"])
def test_a_bare_number_is_no_date(bare):
    with pytest.raises(BadInputError, match="a date"):
        fit({"date": bare}, "", Case, None)
