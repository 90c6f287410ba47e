"""The worst that could come of one wrong answer, against really diagnosing every changed case."""

from pathlib import Path

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import open_rules
from diagnose.reasoning.options import options


def lead(diagnosis, cause):
    scores = {ranked.id: ranked.score_db for ranked in diagnosis.ranking.causes}
    return scores.pop(cause) - max(scores.values())


@pytest.mark.parametrize("name", ["forgotten_in_july", "specks_and_webs"])
def test_no_listed_answer_costs_more_than_the_one_named(name):
    rules = open_rules()
    case, _ = read_case(Path(locations.demo_cases()) / f"{name}.toml")
    now = rules.diagnose(case)
    first = now.ranking.first.id
    for one in rules.mistaken(now)[:6]:
        question = one.question
        others = [
            rules.diagnose(case.model_copy(update={"answers": {**case.answers, question.id: option.answer}}))
            for option in options(question, case.date)
        ]
        worst = min([lead(now, first), *(lead(other, first) for other in others)])
        assert one.lead_db == worst
        if one.instead is not None:
            really = rules.diagnose(
                case.model_copy(update={"answers": {**case.answers, question.id: one.instead}})
            )
            assert (one.first, one.lead_db) == (really.ranking.first.id, lead(really, first))
