"""An entry's page from the rule book as text on the screen; entries it names can be clicked."""

from pathlib import Path

from textual.content import Content
from textual.style import Style

from diagnose import locations
from diagnose.language import _
from diagnose.report.rulebook.page import Page, Part, Piece, Run
from diagnose.screens.rule_search import kind_said


def page_said(page: Page) -> Content:
    """Return a page: what it is, where it stands, and its parts."""
    text = _("{kind} {id}, house rule\nin {file}") if page.house else _("{kind} {id}\nin {file}")
    standing = text.format(kind=kind_said(page.table), id=page.id, file=file_said(page.file))
    title = "" if page.title == page.id else f"{page.title}\n"
    parts = [
        Content.assemble((title, "bold"), (standing, "$muted")),
        *(_part(part) for part in page.parts),
    ]
    return Content("\n\n").join(parts)


def file_said(file: str) -> str:
    """Return a rule file's path as it is said: built-in ones from their folder on."""
    path, built_in = Path(file), locations.built_in_rules()
    return f"rules/{path.relative_to(built_in).as_posix()}" if path.is_relative_to(built_in) else file


def _part(part: Part) -> Content:
    runs = [_run(run) for run in part.runs]
    if part.is_list:
        runs = [Content.assemble("- ", run) for run in runs]
    label = [Content.styled(part.label, "$muted")] if part.label else []
    return Content("\n").join([*label, *runs])


def _run(run: Run) -> Content:
    return Content.assemble(*(_piece(piece) for piece in run))


def _piece(piece: Piece) -> Content:
    if isinstance(piece, str):
        return Content(piece)
    if piece.table == "measure":  # has no page on the screen
        return Content(piece.text)
    go = Style.from_meta({"@click": f"screen.show_entry({piece.table!r}, {piece.id!r})"})
    return Content(piece.text).stylize(go + Style(underline=True))
