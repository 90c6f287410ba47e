"""`diagnose report`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.command.keep.written import refuse_existing, write_new
from diagnose.command.opened import opened
from diagnose.command.output import talk
from diagnose.diagnosis import plan_for
from diagnose.language import _, or_listed, quoted
from diagnose.problems import BadInputError, Problem
from diagnose.report.page import Page, page
from diagnose.report.pdf import PdfMissingError, pdf
from diagnose.report.render import html, markdown

_KINDS = (".html", ".md", ".pdf")


def report(path: Path, out: Path, house: Sequence[Path], *, force: bool, with_place: bool, paper: str) -> int:
    """Write one page with everything that is concluded of a case."""
    kind = out.suffix.lower()
    if kind not in _KINDS:
        found = quoted(out.suffix) if out.suffix else _("a name without an ending")
        expected = _("a file ending in {endings}").format(endings=or_listed(_KINDS))
        raise BadInputError([Problem(None, None, "-o", found, expected)])
    refuse_existing(out, force=force)
    case = opened(path, house)
    shown = page(case.diagnosis, plan_for(case.diagnosis), with_place=with_place)
    write_new(out, _content(shown, kind, paper), force=force)
    talk(_("Report written to {file}.").format(file=out))
    return case.exit


def _content(shown: Page, kind: str, paper: str) -> bytes:
    if kind == ".md":
        return markdown(shown).encode()
    if kind == ".html":
        return html(shown).encode()
    try:
        return pdf(html(shown, paper=paper))
    except PdfMissingError as error:
        raise BadInputError([Problem(None, None, "-o", *error.told)]) from error
