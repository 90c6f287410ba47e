"""What must hold for the leaf measures of any case."""

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.case import EVENT_KINDS, Case, Event, Leaf, LeafCount, Place
from diagnose.measures.leaves import DECLARED
from diagnose.measures.leaves.consistency import inconsistencies
from diagnose.measures.needs import LeafLife, LeafNumber, PlantNeeds
from leaf_cases import case_of, measured, on

NEEDS = PlantNeeds(
    leaf_number=LeafNumber(origin="invented", standing_low=3, standing_high=6),
    leaf_life=LeafLife(origin="invented", life_low_d=60, life_high_d=180),
)
near = st.integers(-30, 400).map(on)
dates = near | st.dates()
few = st.none() | st.integers(0, 4)
some = few | st.integers(0, 1000)
positions = st.none() | st.sampled_from(["oldest", "middle", "newest"])
rows = st.builds(
    LeafCount,
    date=dates,
    present=st.integers(0, 9) | st.integers(0, 5000),
    new=some,
    lost=some,
    lost_which=positions,
)
events = st.builds(Event, date=dates, kind=st.sampled_from(EVENT_KINDS))
cases = st.builds(
    Case,
    date=near | st.dates(),
    place=st.builds(Place, latitude=st.none() | st.floats(-90, 90)),
    leaf_history=st.lists(rows, max_size=12).map(tuple),
    leaves=st.lists(st.builds(Leaf, opened=st.none() | dates, lost=st.none() | dates), max_size=8).map(tuple),
    events=st.lists(events, max_size=4).map(tuple),
)
answers = st.fixed_dictionaries(
    {},
    optional={
        "leaves_standing": st.floats(0, 2000),
        "leaves_before": st.floats(0, 2000),
        "which_leaves": st.sampled_from(["oldest", "middle", "newest", "all_over", "light_side"]),
        "days_since_moved": st.integers(0, 100_000),
        "days_since_repotted": st.floats(0, 4000),
    },
)
sound = st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2)), min_size=1, max_size=30).map(
    lambda steps: case_of(steps, present=80, every=7)
)


def by_name():
    return {declared.name: declared for declared in DECLARED}


@given(cases, answers)
@settings(max_examples=150)
def test_any_valid_case_is_measured_within_what_is_declared(case, told):
    for name, found in measured(case, told, NEEDS).items():
        declared = by_name()[name]
        if declared.words:
            assert found.value in declared.words
        else:
            assert declared.least <= found.value <= declared.most
        assert set(found.used) <= {*declared.inputs}


@given(cases)
@settings(max_examples=100)
def test_faults_of_any_valid_case_are_sentences(case):
    for fault in inconsistencies(case):
        assert fault.sentence().endswith(".")
        assert "None" not in fault.sentence()


@given(cases | sound, answers)
@settings(max_examples=150)
def test_limits_contain_the_value(case, told):
    for found in measured(case, told, NEEDS).values():
        assert found.low is None or found.low <= found.value * (1 + 1e-9) + 1e-9
        assert found.high is None or found.high >= found.value * (1 - 1e-9) - 1e-9


@given(cases | sound, st.randoms(use_true_random=False))
@settings(max_examples=150)
def test_the_order_of_rows_never_matters(case, pick):
    shuffled = {}
    for part in ("leaf_history", "leaves", "events"):
        rows = list(getattr(case, part))
        pick.shuffle(rows)
        shuffled[part] = tuple(rows)
    assert measured(case.model_copy(update=shuffled)) == measured(case)


@given(sound)
@settings(max_examples=60)
def test_a_year_of_silence_never_raises_a_rate(case):
    last = case.leaf_history[-1]
    quiet = tuple(
        LeafCount(date=last.date + dt.timedelta(days=7 * n), present=last.present, new=0, lost=0)
        for n in range(1, 53)
    )
    later = case.model_copy(update={"leaf_history": case.leaf_history + quiet, "date": quiet[-1].date})
    before, after = measured(case), measured(later)
    for name in ("new_leaves_per_30d", "lost_leaves_per_30d", "lost_share_30d_percent"):
        assert after[name].value <= before[name].value
        assert after[name].value == 0


@given(sound, st.integers(1, 400))
@settings(max_examples=60)
def test_the_calendar_does_not_matter_where_season_and_events_are_unknown(case, days):
    shift = dt.timedelta(days=days)
    moved = tuple(count.model_copy(update={"date": count.date + shift}) for count in case.leaf_history)
    later = case.model_copy(update={"date": case.date + shift, "leaf_history": moved})

    def values(found):
        return {name: (m.value, m.low, m.high) for name, m in found.items()}

    assert values(measured(later)) == values(measured(case))


def test_no_answer_gives_no_measure():
    assert measured(Case(date=on(0)), needs=NEEDS) == {}


def test_one_count_and_three_counts_are_enough_for_something():
    assert set(measured(case_of([]))) == {"standing_leaves"}
    three = measured(case_of([(0, 1), (1, 0)]))
    assert {"new_leaves_per_30d", "lost_leaves_per_30d", "net_leaves_per_30d", "loss_ratio"} <= set(three)
    assert "interval wide" in three["lost_leaves_per_30d"].remark
