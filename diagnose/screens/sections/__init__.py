"""The pages of the review: one file a page.

To add one, write its file, name it in `SECTIONS` and its digit in `actions.py`.
"""

from collections.abc import Callable
from dataclasses import dataclass

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
    Named("reasons", "Reasons", ReasonsSection),
    Named("about", "About", AboutCause),
    Named("why-not", "Why not", WhyNotSection),
    Named("next", "Check next", CheckNextSection),
    Named("what-if", "What if", WhatIfSection),
    Named("sure", "How sure", HowSureSection),
    Named("plan", "Plan", PlanSection),
    Named("charts", "Charts", ChartsSection),
)
