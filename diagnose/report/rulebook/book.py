"""The whole rule base as one page to read or print, in HTML or Markdown."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.report.rulebook.page import Page
from diagnose.report.rulebook.pages import TABLES, Pages
from diagnose.rulebase.rulebase import RuleBase

CHAPTERS = {
    "cause": ("Causes", "What makes a plant lose leaves, and what speaks for and against each."),
    "finding": ("Findings", "What rules conclude on the way from answers to causes."),
    "question": ("Questions", "What is asked, and how to look."),
    "measure": ("Measures", "What is computed from the answers."),
    "rule": ("Rules", "From answers and measures to findings."),
    "evidence": ("Evidence", "From answers, measures and findings to causes."),
    "conflict": ("Conflicts", "Answers that hardly go together: shown beside the ranking, weighing nothing."),
    "plant": ("Plants", "What each kind needs and is known for."),
    "advice": ("Advice", "What to do, and when to look again."),
    "caution": ("Cautions", "What can hurt, and how to keep it from doing so."),
    "subject": ("Subjects", "The headings under which questions are asked."),
    "source": ("Sources", "Where all this is known from."),
}


@dataclass(frozen=True, slots=True)
class Chapter:
    """One kind of entry, all its pages in order."""

    table: str
    title: str
    about: str
    pages: tuple[Page, ...]


@dataclass(frozen=True, slots=True)
class Book:
    """All chapters, and what they were made from."""

    title: str
    about: str
    chapters: tuple[Chapter, ...]


def book(base: RuleBase) -> Book:
    """Return the whole rule base as a book."""
    chapters = tuple(_chapters(base))
    count = sum(len(chapter.pages) for chapter in chapters)
    house = sum(page.house for chapter in chapters for page in chapter.pages)
    about = f"{count} entries{f', {house} of them house entries' if house else ''}; rules {base.hash}."
    return Book("The rules of leaf loss", about, chapters)


def _chapters(base: RuleBase) -> Iterator[Chapter]:
    pages = Pages(base)
    for table in TABLES:
        yield Chapter(table, *CHAPTERS[table], tuple(pages.table(table)))
