"""The book as one Markdown file (CommonMark); its anchors are HTML ids, which all common readers know."""

import re
from collections.abc import Iterator
from pathlib import PurePath

from diagnose.report.rulebook.as_html import anchor
from diagnose.report.rulebook.book import Book, Chapter
from diagnose.report.rulebook.page import Link, Page, Part, Run
from diagnose.report.words import with_house

_SPECIAL = re.compile(r"[\\`*{}\[\]<>#&~|!]|(?<![a-z0-9])_|_(?![a-z0-9])|^[-+=]|(?<=^\d)[.)]|(?<=^\d\d)[.)]")
"""All that CommonMark could read as markup; a backslash before it makes it plain (CommonMark 0.31, 2.4)."""


def book_markdown(book: Book) -> str:
    """Return the book as a Markdown document."""
    lines = [f"# {_plain(book.title)}", "", _plain(book.about), ""]
    lines += [f"- [{_plain(chapter.title)}](#{chapter.table})" for chapter in book.chapters]
    for chapter in book.chapters:
        lines += _chapter(chapter)
    return "\n".join(lines) + "\n"


def _chapter(chapter: Chapter) -> Iterator[str]:
    yield from (
        "",
        f'<a id="{chapter.table}"></a>',
        "",
        f"## {_plain(chapter.title)}",
        "",
        _plain(chapter.about),
    )
    for page in chapter.pages:
        yield from _page(page)


def _page(page: Page) -> Iterator[str]:
    named = f"{page.title} ({page.id})" if page.title != page.id else page.id
    title = with_house(named, house=page.house)
    yield from ("", f'<a id="{anchor(page.table, page.id)}"></a>', "", f"### {_plain(title)}")
    if page.file:
        yield from ("", f"*{_plain(PurePath(page.file).name)}*")
    for part in page.parts:
        yield from ("", *_part(part))


def _part(part: Part) -> Iterator[str]:
    if part.is_list:
        yield from (f"**{_plain(part.label)}:**", "")
        yield from (f"- {_run(run)}" for run in part.runs)
    else:
        label = f"**{_plain(part.label)}:** " if part.label else ""
        yield label + _run(part.runs[0])


def _run(run: Run) -> str:
    return "".join(_plain(piece) if isinstance(piece, str) else _link(piece) for piece in run)


def _link(link: Link) -> str:
    return f"[{_plain(link.text)}](#{anchor(link.table, link.id)})"


def _plain(text: str) -> str:
    return _SPECIAL.sub(r"\\\g<0>", text.replace("\n", " "))
