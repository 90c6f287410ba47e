"""Reports in the language spoken: whole, valid, with its own marks and names, and without ids where words belong."""

import re
from html import unescape

import html5lib
import pytest

from diagnose import language, locations
from diagnose.casefile import read_case
from diagnose.diagnosis import open_rules, plan_for
from diagnose.report.page import page
from diagnose.report.plan_text import plan_text
from diagnose.report.render import html, markdown
from diagnose.report.rulebook.as_html import book_html
from diagnose.report.rulebook.book import book
from diagnose.report.text import ranking_text
from diagnose.report.words import decibans, lower_first, verdict

CASE = locations.demo_cases() / "dim_and_waterlogged.toml"


@pytest.fixture
def german():
    language.speak("de")
    yield open_rules([])
    language.speak("en")


@pytest.fixture
def told_in_german(german):
    diagnosis = german.diagnose(read_case(CASE)[0])
    return diagnosis, plan_for(diagnosis)


def words_of(text):
    bare = re.sub(r"<svg.*?</svg>|<style>.*?</style>|<[^>]+>", " ", text, flags=re.DOTALL)
    return re.sub(r"\s+", " ", unescape(bare))


def test_a_page_names_its_language(paged, told_in_german):
    text = html(page(*told_in_german))
    html5lib.HTMLParser(strict=True).parse(text)
    assert '<html lang="de">' in text
    language.speak("en")
    assert '<html lang="en">' in html(paged(read_case(CASE)[0]))


def test_a_page_speaks_german_throughout(told_in_german):
    words = words_of(html(page(*told_in_german)))
    for said in (
        "30. Januar 2026",
        "+12,25 dB",
        "Was zu tun ist",
        "Die Zahlen als Tabelle",
        "übliche Praxis",
    ):
        assert said in words
    for said in (
        "What is seen",
        "because",
        "Look again",
        "Take care",
        "common practice",
        " is likely",
        " more",
    ):
        assert said not in words


def test_markdown_and_plain_text_speak_german(told_in_german):
    diagnosis, plan = told_in_german
    text = markdown(page(diagnosis, plan))
    assert "## Was es sein kann" in text
    assert "## Why" not in text
    assert "Nicht bekannt:" in ranking_text(diagnosis)
    assert "Heute: nachsehen und messen" in plan_text(diagnosis, plan)


def test_names_keep_their_capitals_and_stand_in_quotes(told_in_german):
    diagnosis, _plan = told_in_german
    assert lower_first("Zugluft") == "Zugluft"
    assert f"„{diagnosis.ranking.first.name}“" in verdict(diagnosis)
    assert decibans(-7.5) == "-7,5 dB"


def test_the_book_speaks_german(german):
    text = book_html(book(german.base))
    html5lib.HTMLParser(strict=True).parse(text)
    assert '<html lang="de">' in text
    assert "<h2>Ursachen</h2>" in text


def test_ids_of_questions_are_not_shown_where_words_belong(told):
    diagnosis, _plan, made = told
    shown = words_of(html(made)) + markdown(made).replace("\\", "") + ranking_text(diagnosis)
    ids = [one for one in diagnosis.base.questions if "_" in one]
    assert len(ids) > 50
    assert [one for one in ids if re.search(rf"\b{one}\b", shown)] == []


def test_all_that_was_told_is_listed_under_its_subject(told):
    diagnosis, _plan, made = told
    listed = {question for part in made.told for question, _answer in part.answers}
    answered = [diagnosis.base.questions[name] for name in diagnosis.case.answers]
    assert {
        question.text for question in answered if question.kind not in ("plant_profile", "place")
    } <= listed
