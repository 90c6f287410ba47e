"""The page as HTML: valid, whole in itself, safe with any text, fit for paper, silent about the place."""

import datetime as dt
import re
from html import unescape
from html.parser import HTMLParser

import html5lib
import pytest

from diagnose.case import Case, Event, LeafCount, Place, Plant
from diagnose.report.render import html

HOSTILE = "<script>alert(1)</script> [b]bold[/b] {{ 7*7 }} {% raw %} \" ' & ]]> <!-- </style> \N{RIGHT-TO-LEFT OVERRIDE}"


class Elements(HTMLParser):
    """All elements with their attributes."""

    def __init__(self, text):
        super().__init__()
        self.seen = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, dict(attrs)))


def test_a_page_is_strictly_valid(shown):
    html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(shown)


def test_the_strict_parser_sees_faults():
    with pytest.raises(html5lib.html5parser.ParseError):
        html5lib.HTMLParser(strict=True).parse("<!DOCTYPE html><title>x</title><p></div>")


def test_a_page_fetches_nothing(shown):
    text = shown
    for tag, attributes in Elements(text).seen:
        assert tag not in ("script", "link", "img", "iframe", "object", "embed", "form", "base"), tag
        assert not {"src", "href", "srcset", "action", "data", "background", "xlink:href"} & set(
            attributes
        ), tag
        assert not any(name.startswith("on") for name in attributes)
    style = text[text.index("<style>") : text.index("</style>")]
    assert "url(" not in style
    assert "@import" not in style


def test_ids_are_unique_and_pictures_have_words(shown):
    elements = Elements(shown).seen
    ids = [attributes["id"] for _, attributes in elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    pictures = [attributes for tag, attributes in elements if tag == "svg"]
    assert len(pictures) > 13
    assert all(picture["role"] == "img" and picture["aria-label"] for picture in pictures)


def test_a_page_reads_without_pictures_and_style(told, shown):
    diagnosis, plan, page = told
    bare = re.sub(r"<svg.*?</svg>|<style>.*?</style>|<[^>]+>", " ", shown, flags=re.DOTALL)
    words = re.sub(r"\s+", " ", unescape(bare))
    for ranked in diagnosis.ranking.causes:
        assert ranked.name in words
    for ranked in diagnosis.ranking.causes[:3]:
        assert all(line.text in words for line in ranked.lines)
    for step in plan.steps:
        assert step.text in words
    assert diagnosis.base.hash in words
    for view in page.views:
        assert view.sentence in words
        assert view.rows


def test_the_ledger_shown_adds_up(told):
    for reason in told[2].reasons:
        numbers = [
            float(entry.decibans.replace("\N{MINUS SIGN}", "-").removesuffix(" dB"))
            for entry in reason.entries
        ]
        assert sum(numbers) == pytest.approx(
            float(reason.score.replace("\N{MINUS SIGN}", "-").removesuffix(" dB")), abs=0.2
        )


def test_rules_for_paper_are_there(shown):
    text = shown
    assert "@page" in text
    assert "@media print" in text
    assert "prefers-color-scheme: dark" in text
    assert "@page { size" not in text  # the printer's own sheet, A4 or Letter


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_pdf_has_a_sheet_of_its_own(paged, paper):
    assert f"@page {{ size: {paper};" in html(paged(Case(date=dt.date(2026, 3, 1))), paper=paper)


def hostile_case(text=HOSTILE):
    return Case(
        date=dt.date(2026, 3, 1),
        title=text,
        story=text,
        plant=Plant(name=text, kind=text, profile=text),
        place=Place(label=text, city="Nowhere <b>", latitude=51.123, longitude=-0.456),
        leaf_history=(
            LeafCount(date=dt.date(2026, 1, 1), present=5),
            LeafCount(date=dt.date(2026, 2, 1), present=3, new=0, lost=2),
        ),
        events=(Event(date=dt.date(2026, 1, 15), kind="moved", note=text),),
        answers={"which_leaves": "oldest", "no_such_question": text},
    )


def test_hostile_text_is_only_text(paged):
    page = paged(hostile_case(), with_place=True)
    text = html(page)
    html5lib.HTMLParser(strict=True).parse(text)
    assert not any(tag in ("script", "b") and "class" in attrs for tag, attrs in Elements(text).seen)
    assert "script" not in {tag for tag, _ in Elements(text).seen}
    assert "<script>" not in text
    assert "{{ 7*7 }}" in text  # shown as written, never worked out
    assert "&lt;script&gt;alert(1)&lt;/script&gt; [b]bold[/b]" in text


def test_the_place_is_left_out_unless_asked_for(paged):
    case = Case(
        date=dt.date(2026, 3, 1),
        place=Place(
            label="the attic in Fenwick Row", city="Oxford", country="GB", latitude=51.7519, longitude=-1.2578
        ),
        answers={"window_direction": "south", "distance_to_window_cm": 80},
    )
    without, shown = html(paged(case)), html(paged(case, with_place=True))
    for told in ("attic", "Fenwick", "Oxford", "51.75", "1.257"):
        assert told not in without
        assert told in shown


def test_a_fault_in_the_place_does_not_tell_the_place(paged):
    case = Case(date=dt.date(2026, 3, 1), place=Place(city="Quxville-on-Sea"))
    assert "Quxville" not in html(paged(case))
    assert "Quxville" in html(paged(case, with_place=True))


def test_an_empty_case_gives_a_page(paged):
    page = paged(Case(date=dt.date(2026, 3, 1)))
    text = html(page)
    html5lib.HTMLParser(strict=True).parse(text)
    assert "Too little is known" in text
    assert page.views == ()


def test_single_leaves_and_long_histories_are_told(paged):
    counts = tuple(
        LeafCount(date=dt.date(2020, 1, 1) + dt.timedelta(days=30 * n), present=5, new=1, lost=1)
        for n in range(70)
    )
    page = paged(Case(date=dt.date(2026, 3, 1), leaf_history=counts))
    html5lib.HTMLParser(strict=True).parse(html(page))
    assert len(page.views[0].rows) == 30
