"""A page -> HTML or Markdown, by the templates beside this file. What the grower wrote is only ever text."""

import functools
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from diagnose.language import _, day_in_short, day_said, ngettext, pgettext, spoken
from diagnose.report.page import Page
from diagnose.report.pictures import interval_scale
from diagnose.report.plan_text import LIMITS, look_again, take_care, why_held
from diagnose.report.text import origin_named, with_units
from diagnose.report.words import with_house

if TYPE_CHECKING:
    from jinja2 import Environment

_TEMPLATES = Path(__file__).parent / "templates"
_MARKS = re.compile(r"([\\`*\[\]|]|(?<!\w)_|_(?!\w)|~(?=~)|<(?=[A-Za-z/!?])|&(?=#?\w+;))")
_LINE_START = re.compile(r"^([-+=>#]|\d+[.)])(?=\s|$|#)")


def html(page: Page, paper: str = "") -> str:
    """Return the page as one HTML file without outside parts; `paper` (a4 or letter) fixes the sheet of a PDF."""
    template = _environment(markdown=False).get_template("report.html")
    text = template.render(
        page=page, paper=paper, language=spoken(), scale=interval_scale(), limits=_(LIMITS)
    )
    return with_units(text)


def markdown(page: Page) -> str:
    """Return the page as Markdown that reads well as plain text."""
    text = _environment(markdown=True).get_template("report.md").render(page=page, limits=_(LIMITS))
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n"


@functools.cache
def _environment(*, markdown: bool) -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined  # noqa: PLC0415 - only a report needs it

    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=not markdown,  # noqa: S701 - in Markdown `finalize` escapes
        finalize=_plain if markdown else None,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n"],
    )
    environment.install_gettext_callables(  # type: ignore[attr-defined] # by the extension
        _, ngettext, newstyle=False, pgettext=pgettext
    )
    environment.filters |= {"day": day_said, "short": day_in_short, "origin": origin_named}
    environment.globals |= {
        "look_again": look_again,
        "take_care": take_care,
        "why_held": why_held,
        "with_house": with_house,
    }
    return environment


def _plain(value: Any) -> Any:
    """Return text so that Markdown takes nothing in it for markup, on one line."""
    if not isinstance(value, str) or hasattr(value, "__html__"):  # a piece made by the template itself
        return value
    return _LINE_START.sub(_marked, _MARKS.sub(_marked, " ".join(value.split())))


def _marked(found: re.Match[str]) -> str:
    return f"{found[1][:-1]}\\{found[1][-1]}"
