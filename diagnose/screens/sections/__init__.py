"""The pages of the review: one file a page. To add one, write its file and name it in `SECTIONS`."""

from collections.abc import Callable
from dataclasses import dataclass

from diagnose.screens.sections.about_cause import AboutCause
from diagnose.screens.sections.not_known import NotKnownSection
from diagnose.screens.sections.reasons import ReasonsSection
from diagnose.screens.sections.section import GoTo, Section

__all__ = ["SECTIONS", "GoTo", "Named", "Section"]


@dataclass(frozen=True, slots=True)
class Named:
    """A page's id, its title, and what makes its widget."""

    id: str
    title: str
    make: Callable[[], Section]


SECTIONS = (
    Named("reasons", "Reasons", ReasonsSection),
    Named("about", "What it is", AboutCause),
    Named("not-known", "Not known", NotKnownSection),
)
