"""The book as one HTML file: no script, no outside request, readable without its style sheet."""

from collections.abc import Iterator
from html import escape
from pathlib import PurePath

from diagnose.language import _, spoken
from diagnose.report.rulebook.book import Book, Chapter
from diagnose.report.rulebook.page import Link, Page, Part, Run
from diagnose.report.words import with_house

_STYLE = """
body { max-width: 48em; margin: 2em auto; padding: 0 1em; font: 1em/1.5 serif; color: #222; background: #fff; }
a { color: #1a5c2e; }
h2 { margin-top: 3em; border-bottom: 1px solid #999; }
h3 { margin: 2em 0 0; }
h3 small, .file { font-weight: normal; color: #555; }
.file { margin: 0; font-size: .85em; }
dl { margin: .5em 0; }
dt { font-weight: bold; margin-top: .5em; }
dd { margin-left: 1.5em; }
dd ul { margin: 0; padding-left: 1em; }
nav ul { columns: 3 14em; }
@media print {
  body { max-width: none; margin: 0; font-size: 9pt; }
  h2 { break-before: page; }
  article { break-inside: avoid; }
  a { color: inherit; text-decoration: none; }
}
"""


def book_html(book: Book) -> str:
    """Return the book as a whole HTML document."""
    title, contents = escape(book.title), escape(_("Contents"))
    lines = [
        "<!DOCTYPE html>",
        f'<html lang="{spoken()}">',
        '<head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{title}</title>",
        f"<style>{_STYLE}</style></head>",
        f"<body><h1>{title}</h1><p>{escape(book.about)}</p>",
        f"<nav><h2>{contents}</h2>",
        *(line for chapter in book.chapters for line in _contents(chapter)),
        "</nav><main>",
        *(line for chapter in book.chapters for line in _chapter(chapter)),
        "</main></body></html>",
    ]
    return "\n".join(lines) + "\n"


def anchor(table: str, entry_id: str) -> str:
    """Return the name by which an entry is reached within the document."""
    return f"{table}-{entry_id}"


def _contents(chapter: Chapter) -> Iterator[str]:
    yield f'<h3><a href="#{chapter.table}">{escape(chapter.title)}</a></h3><ul>'
    for page in chapter.pages:
        yield f"<li>{_link(Link(page.table, page.id, _named(page)))}</li>"
    yield "</ul>"


def _chapter(chapter: Chapter) -> Iterator[str]:
    yield f'<section id="{chapter.table}"><h2>{escape(chapter.title)}</h2><p>{escape(chapter.about)}</p>'
    for page in chapter.pages:
        yield from _page(page)
    yield "</section>"


def _page(page: Page) -> Iterator[str]:
    also = f" <small>{escape(with_house(page.id, house=page.house))}</small>" if page.title != page.id else ""
    title = page.title if also else with_house(page.id, house=page.house)
    yield f'<article id="{escape(anchor(page.table, page.id))}"><h3>{escape(title)}{also}</h3>'
    if page.file:
        yield f'<p class="file">{escape(PurePath(page.file).name)}</p>'
    labelled = [part for part in page.parts if part.label]
    for part in page.parts:
        if not part.label:
            yield f"<p>{_run(part.runs[0])}</p>"
    if labelled:
        yield "<dl>"
        for part in labelled:
            yield f"<dt>{escape(part.label)}</dt><dd>{_body(part)}</dd>"
        yield "</dl>"
    yield "</article>"


def _body(part: Part) -> str:
    if not part.is_list:
        return _run(part.runs[0])
    return "<ul>" + "".join(f"<li>{_run(run)}</li>" for run in part.runs) + "</ul>"


def _run(run: Run) -> str:
    return "".join(escape(piece) if isinstance(piece, str) else _link(piece) for piece in run)


def _link(link: Link) -> str:
    return f'<a href="#{escape(anchor(link.table, link.id))}">{escape(link.text)}</a>'


def _named(page: Page) -> str:
    """Return what a page is called in the contents: sources are best found by their id."""
    return f"{page.id}, {page.title}" if page.table == "source" else page.title
