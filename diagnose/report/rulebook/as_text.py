"""A page as plain text."""

from diagnose.language import _
from diagnose.report.rulebook.page import Page, Part, plain
from diagnose.report.text import bullet_list, wrapped
from diagnose.report.words import with_house


def page_text(page: Page) -> str:
    """Return a page as lines of at most 79 columns."""
    lines = [with_house(f"{page.table} {page.id}", house=page.house)]
    lines += [page.title] if page.title != page.id else []
    lines += [_("in {file}").format(file=page.file)] if page.file else []
    for part in page.parts:
        lines += part_lines(part)
    return "\n".join(lines)


def part_lines(part: Part) -> list[str]:
    """Return a part: one paragraph, or its label and a list."""
    if part.is_list:
        return ["", f"{part.label}:", *bullet_list(plain(run) for run in part.runs)]
    text = plain(part.runs[0])
    return ["", *wrapped(f"{part.label}: {text}" if part.label else text)]
