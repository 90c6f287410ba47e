"""`diagnose rules book`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.command.keep.written import refuse_existing, write_new
from diagnose.command.output import Exit, complain, talk
from diagnose.diagnosis import read_rules
from diagnose.language import _, or_listed, quoted
from diagnose.problems import BadInputError, Problem
from diagnose.report.rulebook.as_html import book_html
from diagnose.report.rulebook.as_markdown import book_markdown
from diagnose.report.rulebook.book import book

_FORMS = {".html": book_html, ".htm": book_html, ".md": book_markdown}


def write_book(file: Path, house: Sequence[Path], *, force: bool) -> int:
    """Write the whole rule base into one file, as HTML or Markdown by its ending."""
    write = _FORMS.get(file.suffix.lower())
    if write is None:
        expected = _("a file ending in {endings}").format(endings=or_listed([".html", ".md"]))
        raise BadInputError([Problem(None, None, "-o", quoted(file.name), expected)])
    refuse_existing(file, force=force)
    base = read_rules(house)
    complain(base.problems)
    write_new(file, write(book(base)).encode(), force=force)
    talk(_("Wrote {file}.").format(file=file))
    return Exit.BAD_INPUT if base.problems else Exit.DONE
