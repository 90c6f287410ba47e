"""The page as Markdown: readable as plain text, and what the grower wrote is never markup."""

import datetime as dt

import pytest

from diagnose.case import Case, Plant
from diagnose.report.render import markdown


def test_all_parts_are_there_in_order(told):
    diagnosis, plan, page = told
    text = markdown(page)
    heads = [line for line in text.splitlines() if line.startswith("## ")]
    assert heads[:3] == ["## What is seen", "## What it may be", "## Why"]
    assert heads[-2:] == ["## How to read the numbers", "## Where it comes from"]
    assert text.startswith(f"# {page.title}")
    assert "<" not in text.replace("<1 %", "").replace("<svg", "")
    for ranked in diagnosis.ranking.causes:
        assert f"| {ranked.rank} | {ranked.name}" in text
    for step in plan.steps:
        assert step.text in text
    assert diagnosis.base.hash in text
    assert "\n\n\n" not in text


def test_tables_are_whole(told):
    rows = [line for line in markdown(told[2]).splitlines() if line.startswith("|")]
    ranking = rows[:15]
    assert {row.count("|") for row in ranking} == {6}


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("<script>x</script>", "\\<script>x\\</script>"),
        ("[b]bold[/b](http://x)", "\\[b\\]bold\\[/b\\](http://x)"),
        ("**bold** _it_ `code`", "\\*\\*bold\\*\\* \\_it\\_ \\`code\\`"),
        ("{{ 7*7 }}", "{{ 7\\*7 }}"),
        ("# no heading", "\\# no heading"),
        ("- no list\n# nor heading", "\\- no list # nor heading"),
        ("1. no list", "1\\. no list"),
        ("a | b", "a \\| b"),
        ("leaf_count < 3 and 5 % of it", "leaf_count < 3 and 5 % of it"),
        ("&lt;b&gt;", "\\&lt;b\\&gt;"),
    ],
)
def test_what_was_written_is_only_text(paged, written, shown):
    text = markdown(paged(Case(date=dt.date(2026, 3, 1), story=written, plant=Plant(kind="fern"))))
    assert f"> {shown}\n" in text


def test_the_place_is_left_out(paged):
    from diagnose.case import Place

    case = Case(date=dt.date(2026, 3, 1), place=Place(label="attic", latitude=51.75, longitude=0.5))
    assert "attic" not in markdown(paged(case))
    assert "attic" in markdown(paged(case, with_place=True))
