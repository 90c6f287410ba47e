"""A demo journal with a known truth: opened, walked through, questioned, learnt from."""

import datetime as dt

import pytest

from demo_journal import BAD_FEED, CHILLED, make
from diagnose.collection.followup import due
from diagnose.collection.learning import learn
from diagnose.collection.overview import overview
from diagnose.collection.standout import standout
from diagnose.journal import cases, counts, open_journal, plans, plants, rankings

UNTIL = dt.date(2026, 5, 31)


@pytest.fixture(scope="module")
def demo(tmp_path_factory, diagnostician):
    path = tmp_path_factory.mktemp("demo") / "demo.sqlite"
    truth = make(path, 120, 1.5, UNTIL, seed=4, rules=diagnostician)
    with open_journal(path) as book:
        yield book, truth


def test_every_plant_is_counted_to_the_last_day(demo):
    book, _ = demo
    rows = overview(plants.all_plants(book), counts.leaf_totals(book), UNTIL)
    assert len(rows) == 120
    assert {row.days_since_count for row in rows} == {0}
    assert all(row.change is not None for row in rows)


def test_what_was_done_is_what_stands_out(demo):
    book, truth = demo
    rows = overview(plants.all_plants(book), counts.leaf_totals(book), UNTIL)
    found = standout(rows, plants.events(book), UNTIL)
    named = {one.row.plant.name for one in found.rising}
    assert named
    assert len(named - truth.hurt) <= 1 + 0.1 * len(named)  # 5 % are expected
    shared = {name for one in found.shared for name in one.names}
    assert f"fed with {BAD_FEED}" in shared
    assert not any(name.startswith("in ") for name in shared)  # no medium did anything
    assert sum(CHILLED in name for name in shared) <= 1


def test_open_cases_ask_to_be_looked_at_again(demo):
    book, _ = demo
    waiting = due(plants.all_plants(book), cases.all_cases(book, settled=False), plans.all_plans(book), UNTIL)
    assert waiting
    assert all(one.look_on <= UNTIL and one.steps for one in waiting)


def test_its_settled_cases_can_be_learnt_from(demo):
    book, truth = demo
    found = learn(rankings.last_rankings(book).values(), cases.outcomes(book))
    assert found.cases == truth.settled > 10
    assert found.left_out == 0
    # 85 % of the cases tell their own story, with a third of the answers missing; the first cause is then mostly right
    assert found.first_right > found.cases / 2
    assert found.calibration.brier < found.calibration.murphy.uncertainty
