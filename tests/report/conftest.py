"""Pages of all demo cases, made once."""

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import plan_for
from diagnose.report.page import page
from diagnose.report.render import html

CASES = sorted(locations.demo_cases().glob("*.toml"))


@pytest.fixture(scope="session", params=CASES, ids=lambda path: path.stem)
def told(request, diagnostician):
    """A demo case: its diagnosis, its plan and its page."""
    diagnosis = diagnostician.diagnose(read_case(request.param)[0])
    plan = plan_for(diagnosis)
    return diagnosis, plan, page(diagnosis, plan)


@pytest.fixture(scope="session")
def shown(told):
    """The same page as HTML."""
    return html(told[2])


@pytest.fixture(scope="session")
def paged(diagnostician):
    """Make the page of any case."""

    def paged(case, *, with_place=False):
        diagnosis = diagnostician.diagnose(case)
        return page(diagnosis, plan_for(diagnosis), with_place=with_place)

    return paged
