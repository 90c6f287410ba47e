"""Pages of entries, and the book of all: complete, linked, escaped, valid."""

import html5lib
import pytest
from markdown_it import MarkdownIt

from diagnose import locations
from diagnose.measures.registry import DECLARED
from diagnose.report.rule_text import entry_text, tables
from diagnose.report.rulebook.as_html import book_html
from diagnose.report.rulebook.as_markdown import book_markdown
from diagnose.report.rulebook.as_text import page_text
from diagnose.report.rulebook.book import book
from diagnose.report.rulebook.page import Link
from diagnose.report.rulebook.pages import Pages
from diagnose.rulebase.load import load
from diagnose.rulebase.resolve import listed

HOSTILE = """
[[finding]]
id = "odd"
text = '<script>alert("x")</script> & [link](http://example.org) `code` *so* &amp; </article> {x} [red]'

[[rule]]
id = "odd_rule"
gives = "odd"
when = { fact = "medium_now", is = "moist" }
because = '<img src="http://example.org/x.png" onerror=alert(1)> ![i](http://example.org/y.png) <!-- '
origin = '"><b>me</b> http://example.org'
fires = [ { medium_now = "moist" } ]
silent = [ { medium_now = "soggy" } ]

[[evidence]]
id = "odd_evidence"
cause = "root_rot"
speaks = "for"
strength = "slight"
when = { finding = "odd" }
because = "1. not a list\\n# not a heading\\n- nor this"
origin = "me, today"
fires = [ { medium_now = "moist" } ]
silent = [ { medium_now = "soggy" } ]
"""


@pytest.fixture(scope="module")
def odd(tmp_path_factory):
    file = tmp_path_factory.mktemp("odd") / "odd <&>.toml"
    file.write_text(HOSTILE)
    base = load(locations.built_in_rules(), [file])
    assert base.problems == ()
    return base


@pytest.fixture(scope="module")
def html(odd):
    return book_html(book(odd))


@pytest.fixture(scope="module")
def markdown(odd):
    return book_markdown(book(odd))


@pytest.fixture(scope="module")
def tree(html):
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)


def entries(base):
    named = [(table, one.id) for table, entries in tables(base).items() for one in entries.values()]
    return named + [("measure", measure.name) for measure in DECLARED]


def test_the_html_is_valid_and_has_every_entry_once(odd, tree):
    ids = [element.get("id") for element in tree.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert {f"{table}-{entry}" for table, entry in entries(odd)} <= set(ids)


def test_every_link_leads_somewhere_within_the_page(tree):
    ids = {element.get("id") for element in tree.iter()}
    targets = [element.get("href") for element in tree.iter("a")]
    assert len(targets) > 5000
    assert all(target.startswith("#") and target[1:] in ids for target in targets)


def test_the_html_asks_for_nothing_from_outside(tree):
    tags = {element.tag for element in tree.iter() if isinstance(element.tag, str)}
    assert tags.isdisjoint(
        {"script", "link", "img", "iframe", "object", "embed", "audio", "video", "base", "form"}
    )
    assert not any(
        name in element.attrib for element in tree.iter() for name in ("src", "style", "onerror", "onclick")
    )
    assert "url(" not in "".join(element.text or "" for element in tree.iter("style"))


def test_what_the_grower_wrote_stays_text(odd, tree):
    article = next(element for element in tree.iter("article") if element.get("id") == "finding-odd")
    assert odd.findings["odd"].text in "".join(article.itertext())
    article = next(element for element in tree.iter("article") if element.get("id") == "rule-odd_rule")
    words = "".join(article.itertext())
    assert odd.rules["odd_rule"].because in words
    assert odd.rules["odd_rule"].origin in words


def test_without_its_style_the_order_is_that_of_the_text(tree):
    """Headings, labels and lists are elements, so a reader without CSS sees the same structure."""
    titles = ["".join(element.itertext()) for element in tree.iter("h2")]
    assert titles[:4] == ["Contents", "Causes", "Findings", "Questions"]
    for article in tree.iter("article"):
        assert article[0].tag == "h3"


def test_markdown_keeps_its_words_and_its_links(odd, markdown):
    page = MarkdownIt("commonmark").render(markdown)
    tree = html5lib.HTMLParser(namespaceHTMLElements=False).parse(page)
    ids = {element.get("id") for element in tree.iter()}
    targets = [element.get("href") for element in tree.iter("a") if element.get("href")]
    assert len(targets) > 4000
    assert all(target.startswith("#") and target[1:] in ids for target in targets)
    tags = {element.tag for element in tree.iter()}
    assert tags.isdisjoint({"script", "img", "b", "code"})
    words = " ".join("".join(tree.itertext()).split())
    for text in (
        odd.findings["odd"].text,
        odd.rules["odd_rule"].because,
        odd.evidence["odd_evidence"].because,
    ):
        assert " ".join(text.split()) in words
    headings = [element for element in tree.iter() if element.tag == "h3"]
    assert len(headings) == len(entries(odd))
    assert len([element for element in tree.iter() if element.tag == "h1"]) == 1


def squeezed(text):
    return "".join(text.split())  # lines may break at a hyphen


def test_every_text_of_every_entry_stands_on_its_page(odd):
    pages = Pages(odd)
    said_otherwise = {"id", "kind", "water", "pace"}
    for table, known in tables(odd).items():
        for entry in known.values():
            words = squeezed(page_text(pages.of(table, entry)))
            for name, value in entry:
                if isinstance(value, str) and value and name not in said_otherwise:
                    named = {"gives": odd.findings, "cause": odd.causes, "subject": odd.subjects}.get(
                        name, {}
                    )
                    full = named[value] if named else None
                    said = [
                        getattr(full, "text", ""),
                        getattr(full, "name", ""),
                        value.replace("_", " "),
                        value,
                        value.capitalize(),
                    ]
                    assert any(squeezed(one) in words for one in said if one), (entry.id, name, value)


def test_links_of_a_page_name_entries_that_exist(odd):
    known = set(entries(odd))
    pages = Pages(odd)
    for table, those in tables(odd).items():
        for entry in those.values():
            for part in pages.of(table, entry).parts:
                for piece in (piece for run in part.runs for piece in run if isinstance(piece, Link)):
                    assert (piece.table, piece.id) in known


def test_text_fits_80_columns_and_says_what_a_rule_rests_on(odd):
    text = entry_text(odd, "evidence", odd.evidence["odd_evidence"])
    assert max(map(len, text.splitlines()[2:])) <= 80
    assert "evidence odd_evidence (house)" in text
    assert "slight (2.5 dB)" in text
    assert "- medium_now: how wet is the soil or mix right now?" in text


def test_source_titles_stand_beside_rules(odd):
    for evidence in list(odd.evidence.values())[::20]:
        words = " ".join(entry_text(odd, "evidence", evidence).split())
        for name in listed(evidence.origin):
            assert name not in odd.sources or odd.sources[name].title in words
