"""What growers type in German, beside English; and every word's meaning is one only."""

import datetime as dt

import pytest

from diagnose.case import LeafCount
from diagnose.language import SOURCE, speak
from diagnose.questionnaire.counted import read_count
from diagnose.questionnaire.dates import read_date
from diagnose.questionnaire.records import known_place
from diagnose.questionnaire.said import ago_said, number_said
from diagnose.questionnaire.table import read_leaf_table
from diagnose.questionnaire.typed import TypedError, read_typed
from diagnose.questionnaire.units import read_number
from diagnose.questionnaire.words import is_not_known
from diagnose.rulebase.model import Choice, Question

TODAY = dt.date(2026, 11, 25)


@pytest.fixture(autouse=True)
def _german():
    speak("de")
    yield
    speak(SOURCE)


@pytest.mark.parametrize(
    ("text", "date"),
    [
        ("heute", "2026-11-25"),
        ("gestern", "2026-11-24"),
        ("Vorgestern", "2026-11-23"),
        ("vor 3 Wochen", "2026-11-04"),
        ("vor drei Wochen", "2026-11-04"),
        ("3 Wochen her", "2026-11-04"),
        ("vor einer Woche", "2026-11-18"),
        ("vor vierzehn Tagen", "2026-11-11"),
        ("vor ein paar Tagen", "2026-11-22"),
        ("vor etwa 1,5 Jahren", "2025-05-26"),
        ("vor einem halben Jahr", "2026-05-26"),
        ("letzte Woche", "2026-11-18"),
        ("letzten Frühling", "2026-04-15"),
        ("im Frühjahr 2025", "2025-04-15"),
        ("Spätsommer 2024", "2024-08-15"),
        ("Mitte Oktober", "2026-10-15"),
        ("Anfang Mai", "2026-05-05"),
        ("Ende März", "2026-03-25"),
        ("3. März", "2026-03-03"),
        ("am 3. März 2025", "2025-03-03"),
        ("3.3.2026", "2026-03-03"),
        ("am 3.3.2026", "2026-03-03"),
        ("03.03.26", "2026-03-03"),
        ("3.12.", "2025-12-03"),
        ("im Dezember", "2025-12-15"),
        ("3 weeks ago", "2026-11-04"),
        ("early May", "2026-05-05"),
    ],
)
def test_dates(text, date):
    assert read_date(text, TODAY) == dt.date.fromisoformat(date)


@pytest.mark.parametrize(
    "text", ["vor Wochen", "31. Februar", "31.2.2026", "irgendwann", "letzte 3 Wochen", "vor"]
)
def test_what_is_no_date_in_german_either(text):
    assert read_date(text, TODAY) is None


@pytest.mark.parametrize("text", ["weiß nicht", "Weiß ich nicht", "?", "don't know", "keine Ahnung"])
def test_not_known(text):
    assert is_not_known(text)


def question(**fields):
    told = {
        "id": "q",
        "subject": "s",
        "text": "What is it?",
        "help": "Look.",
        "why": "It tells.",
        "effort": "look",
    }
    told |= fields
    return Question.model_validate(told)


@pytest.mark.parametrize(
    ("text", "answer"), [("ja", "yes"), ("j", "yes"), ("Nein", "no"), ("yes", "yes"), ("n", "no")]
)
def test_yes_and_no(text, answer):
    assert read_typed(question(kind="yes_no"), text, TODAY) == answer


def test_none_of_several():
    choices = (Choice(id="a", label="Webs"), Choice(id="b", label="Dots"))
    assert read_typed(question(kind="several", choices=choices), "keine", TODAY) == ()


@pytest.mark.parametrize(
    ("text", "unit", "number"),
    [
        ("12,5", "cm", 12.5),
        ("12.5 cm", "cm", 12.5),
        ("10 Zoll", "cm", 25.4),  # 1 in = 2.54 cm by definition
        ("2 Fuß", "cm", 60.96),
        ("20 Grad", "°C", 20),
        ("40 Prozent", "%", 40),
        ("7 Tage", "d", 7),
        ("5 Blätter", "leaves", 5),
        ("1.200", "lux", 1200),  # a point parts thousands in German
        ("1.200,5", "lux", 1200.5),
        ("0.125", "cm", 0.125),
    ],
)
def test_numbers_and_units(text, unit, number):
    assert read_number(text, unit) == pytest.approx(number)


def test_leaf_counts():
    rows = read_leaf_table("vor 3 Wochen: 5 Blätter 1 neu 0 verloren\n1.3.2026 6 1 2 älteste", TODAY)
    assert [(row.date.isoformat(), row.present, row.new, row.lost, row.lost_which) for row in rows] == [
        ("2026-03-01", 6, 1, 2, "oldest"),
        ("2026-11-04", 5, 1, 0, None),
    ]
    before = LeafCount(date=dt.date(2026, 11, 1), present=5)
    assert read_count("4 0 1 jüng", before, TODAY).lost_which == "newest"


def test_coordinates_with_decimal_commas():
    place, _said = known_place("52,5 13,4")
    assert (place.latitude, place.longitude) == (52.5, 13.4)


def test_what_is_said_back():
    assert ago_said(21) == "vor 3 Wochen"
    assert number_said(12.5, "cm") == "12,5 cm"
    with pytest.raises(TypedError, match=r"^Bitte noch einmal: eine Zahl, 0,5 bis 50 cm\.$"):
        read_typed(question(kind="number", unit="cm", least=0.5, most=50), "warm", TODAY)
