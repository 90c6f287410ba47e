"""Whatever is answered, there is a plan, it keeps its promises, and its text fits 79 columns."""

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.case import Case, Place, Plant
from diagnose.diagnosis import plan_for
from diagnose.plan.choose import DOUBT
from diagnose.report.plan_json import plan_document
from diagnose.report.plan_text import plan_text
from legal_answers import legal, questions

NAMES = tuple(questions())
PROFILES = st.sampled_from(["alocasia", "caladium", "generic", "monstera", None])


def as_told(name, value, today):
    """Facts are days ago; a case holds dates."""
    return today - dt.timedelta(days=int(value)) if questions()[name]["kind"] == "date" else value


@settings(max_examples=40)
@given(legal(NAMES), PROFILES, st.dates(dt.date(2020, 1, 1), dt.date(2030, 12, 31)))
def test_any_answers_give_a_plan_that_keeps_its_promises(diagnostician, answers, profile, today):
    told = {name: as_told(name, value, today) for name, value in answers.items()}
    case = Case(
        date=today, plant=Plant(profile=profile), place=Place(label="attic", latitude=50.0), answers=told
    )
    diagnosis = diagnostician.diagnose(case)
    plan = plan_for(diagnosis)
    assert plan.causes[0].id == diagnosis.ranking.first.id
    assert all(step.date >= today for step in plan.steps)
    assert [step.date for step in plan.steps] == sorted(step.date for step in plan.steps)
    for step in plan.steps:
        unless = diagnosis.base.advice[step.id].unless
        assert all(diagnosis.ranking.of(cause).probability < DOUBT for cause in unless)
    if plan.only_looks:
        assert all(step.kind != "change" for step in plan.steps)
    text = plan_text(diagnosis, plan)
    assert max(map(len, text.splitlines())) <= 79
    assert "attic" not in text
    document = plan_document(diagnosis, plan, "a case", ())
    assert [step.id for step in document.steps] == [step.id for step in plan.steps]
    assert type(document).model_validate_json(document.model_dump_json()) == document
