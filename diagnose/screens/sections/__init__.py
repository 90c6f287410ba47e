"""The pages of the review: one file a page.

To add one, write its file, name it in `SECTIONS` and its digit in `actions.py`.
"""

from collections.abc import Callable
from dataclasses import dataclass

from diagnose.language import marked
from diagnose.screens.sections.about_cause import AboutCause
from diagnose.screens.sections.charts import ChartsSection
from diagnose.screens.sections.check_next import CheckNextSection
from diagnose.screens.sections.how_sure import HowSureSection
from diagnose.screens.sections.plan import PlanSection
from diagnose.screens.sections.reasons import ReasonsSection
from diagnose.screens.sections.section import ChooseCause, GoTo, Section
from diagnose.screens.sections.what_if import WhatIfSection
from diagnose.screens.sections.why_not import WhyNotSection

__all__ = ["SECTIONS", "ChooseCause", "GoTo", "Named", "Section"]


@dataclass(frozen=True, slots=True)
class Named:
    """A page's id, its title, and what makes its widget."""

    id: str
    title: str
    make: Callable[[], Section]


SECTIONS = (
    Named("reasons", marked("Reasons"), ReasonsSection),
    Named("about", marked("About"), AboutCause),
    Named("why-not", marked("Why not"), WhyNotSection),
    Named("next", marked("Check next"), CheckNextSection),
    Named("what-if", marked("What if"), WhatIfSection),
    Named("sure", marked("How sure"), HowSureSection),
    Named("plan", marked("Plan"), PlanSection),
    Named("charts", marked("Charts"), ChartsSection),
)
