"""How firm: jitters share their arithmetic with the ranking, and what hangs on one answer is really computed."""

import random
from contextlib import closing

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnostician
from diagnose.ranking import Scales, rank
from diagnose.reasoning.firmness import BANDS, grouped, stays
from diagnose.reasoning.suppose import Supposer
from small_base import small_base, small_case

DEMO = locations.demo_cases()
WEIGHTS = st.sampled_from([-12.5, -7.5, -5.0, -2.5, 2.5, 5.0, 7.5, 12.5, 1.3, -3.7])


@given(st.lists(st.lists(WEIGHTS, min_size=3, max_size=3), min_size=1, max_size=6))
def test_groups_weigh_row_by_row_what_they_weigh_in_a_ledger(rows):
    scales = Scales(small_base(1))
    assert grouped(np.array(rows)).tolist() == [scales.group(tuple(row)) for row in rows]


@given(st.integers(0, 5_000))
def test_scores_without_a_ledger_are_the_ledgers_scores(seed):
    base = small_base(seed)
    with closing(Diagnostician(base)) as diagnostician:
        diagnosis = diagnostician.diagnose(small_case(base, random.Random(seed)))
        scores = Scales(base).scores(firing.rule for firing in diagnosis.firings)
        ranking = rank(base, diagnosis.facts, diagnosis.firings)
        assert scores == {ranked.id: ranked.score_db for ranked in ranking.causes}


@given(st.integers(0, 5_000))
def test_without_jitter_the_first_always_stays_first(seed):
    base = small_base(seed)
    with closing(Diagnostician(base)) as diagnostician, closing(Supposer(base)) as supposer:
        supposing = supposer.about(diagnostician.diagnose(small_case(base, random.Random(seed))))
        assert stays(supposing, spread=0.0, jitters=3) == (1.0, 1.0)
        first, two = stays(supposing, spread=0.5, jitters=50)
        assert 0 <= first <= two <= 1


def test_a_small_lead_is_shakier_than_a_large_one(diagnostician):
    close, clear = (
        diagnostician.how_firm(diagnostician.diagnose(read_case(DEMO / f"{name}.toml")[0]))
        for name in ("dim_and_waterlogged", "forgotten_in_july")
    )
    assert close.lead_db < 5 < clear.lead_db
    assert close.stays_first < 0.8 < clear.stays_first
    assert close.stays_in_two > 0.9
    words = [word for _, word in BANDS]
    assert words.index(close.word) > words.index(clear.word)


def test_what_it_hangs_on_is_what_a_diagnosis_without_that_answer_gives(diagnostician):
    case, _ = read_case(DEMO / "specks_and_webs.toml")
    diagnosis = diagnostician.diagnose(case)
    firmness = diagnostician.how_firm(diagnosis)
    assert len(firmness.without) >= len(case.answers)
    for without in firmness.without[:5]:
        answers = {name: answer for name, answer in case.answers.items() if name != without.question.id}
        ranking = diagnostician.diagnose(case.model_copy(update={"answers": answers})).ranking
        others = [ranked.score_db for ranked in ranking.causes if ranked.id != diagnosis.ranking.first.id]
        assert without.first == ranking.first.id
        assert without.lead_db == ranking.of(diagnosis.ranking.first.id).score_db - max(others)
    leads = [without.lead_db for without in firmness.without]
    assert leads == sorted(leads)


def test_the_same_case_gets_the_same_figures(diagnostician, base):
    case, _ = read_case(DEMO / "dim_and_waterlogged.toml")
    with closing(Diagnostician(base)) as another:
        assert another.how_firm(another.diagnose(case)) == diagnostician.how_firm(
            diagnostician.diagnose(case)
        )


@pytest.mark.parametrize("share", [0.0, 0.399, 0.4, 0.6, 0.8, 0.95, 1.0])
def test_every_share_has_a_word(share):
    assert next(word for least, word in BANDS if share >= least)
