"""The whole rule base as one page to read or print, in HTML or Markdown."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.language import _, marked
from diagnose.report.rulebook.page import Page
from diagnose.report.rulebook.pages import TABLES, Pages
from diagnose.rulebase.rulebase import RuleBase

CHAPTERS = {
    "cause": (
        marked("Causes"),
        marked("What makes a plant lose leaves, and what speaks for and against each."),
    ),
    "finding": (marked("Findings"), marked("What rules conclude on the way from answers to causes.")),
    "question": (marked("Questions"), marked("What is asked, and how to look.")),
    "measure": (marked("Measures"), marked("What is computed from the answers.")),
    "rule": (marked("Rules"), marked("From answers and measures to findings.")),
    "evidence": (marked("Evidence"), marked("From answers, measures and findings to causes.")),
    "conflict": (
        marked("Conflicts"),
        marked("Answers that hardly go together: shown beside the ranking, weighing nothing."),
    ),
    "plant": (marked("Plants"), marked("What each kind needs and is known for.")),
    "advice": (marked("Advice"), marked("What to do, and when to look again.")),
    "caution": (marked("Cautions"), marked("What can hurt, and how to keep it from doing so.")),
    "subject": (marked("Subjects"), marked("The headings under which questions are asked.")),
    "source": (marked("Sources"), marked("Where all this is known from.")),
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
    about = (
        _("{count} entries, {house} of them from house rules; rules {hash}.")
        if house
        else _("{count} entries; rules {hash}.")
    )
    return Book(_("The rules of leaf loss"), about.format(count=count, house=house, hash=base.hash), chapters)


def _chapters(base: RuleBase) -> Iterator[Chapter]:
    pages = Pages(base)
    for table in TABLES:
        title, about = CHAPTERS[table]
        yield Chapter(table, _(title), _(about), tuple(pages.table(table)))
