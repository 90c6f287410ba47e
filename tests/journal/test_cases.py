"""Cases, answers and what became of them come back as they were told."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import EVENT_KINDS, Case, Event, Leaf, LeafCount, Place, Plant
from diagnose.casefile import read_case
from diagnose.diagnosis import plan_for
from diagnose.journal import cases, counts, open_journal, plans, plants, rankings
from diagnose.journal.entries import changes, restored
from diagnose.locations import demo_cases
from diagnose.problems import BadInputError

DAY = dt.date(2026, 6, 1)
days = st.dates(dt.date(2020, 1, 1), DAY)
words = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=12)
names = st.text("abcdefg_", min_size=1, max_size=6)
answers = st.dictionaries(
    names,
    st.booleans() | st.integers(-(10**6), 10**6) | st.floats(allow_nan=False, allow_infinity=False) | days | words
    | st.lists(words, max_size=3).map(tuple),
    max_size=6,
)  # fmt: skip
histories = st.lists(
    st.builds(
        LeafCount,
        date=days,
        present=st.integers(0, 99),
        new=st.none() | st.integers(0, 9),
        lost=st.none() | st.integers(0, 9),
    ),
    max_size=4,
    unique_by=lambda row: row.date,
).map(lambda rows: tuple(sorted(rows, key=lambda row: row.date)))
all_events = st.lists(
    st.builds(Event, date=days, kind=st.sampled_from(EVENT_KINDS), note=words),
    max_size=3,
    unique_by=lambda e: (e.date, e.kind, e.note),
).map(lambda rows: tuple(sorted(rows, key=lambda row: row.date)))
a_case = st.builds(
    Case,
    date=st.just(DAY),
    title=words,
    story=words,
    plant=st.builds(Plant, name=words, kind=words, profile=st.none() | names),
    place=st.builds(Place, label=words, city=st.none() | names, latitude=st.none() | st.floats(-90, 90)),
    leaf_history=histories,
    leaves=st.lists(st.builds(Leaf, opened=st.none() | days, lost=st.none() | days), max_size=3).map(tuple),
    events=all_events,
    answers=answers,
    not_known=st.lists(names, max_size=3, unique=True).map(tuple),
    expect=st.lists(names, max_size=2).map(tuple),
)


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    with open_journal(tmp_path_factory.mktemp("journal") / "j.sqlite") as journal:
        journal.db.execute("PRAGMA synchronous = OFF")
        yield journal


def same(one, other):
    """Equal, types of answers included; the order in which things were not known does not matter."""
    assert one.model_copy(update={"not_known": ()}) == other.model_copy(update={"not_known": ()})
    assert set(one.not_known) == set(other.not_known)
    assert {k: type(v) for k, v in one.answers.items()} == {k: type(v) for k, v in other.answers.items()}


@given(st.lists(a_case, min_size=1, max_size=4))
def test_a_case_comes_back_equal_after_any_changes(shared, states):
    plant = plants.add_plant(shared, f"Plant {len(plants.all_plants(shared)) + 1}")
    record = cases.begin_case(shared, plant.id, DAY)
    before = cases.read_case_record(shared, record)
    for after in states:
        cases.save_change(shared, record, before, after)
        found = cases.read_case_record(shared, record)
        same(found, after)
        before = after


@given(a_case, a_case)
def test_only_what_changed_is_written(before, after):
    assert changes(before, before) == ()
    written = changes(Case(date=DAY), before) + changes(before, after)
    same(restored(written, date=DAY, leaf_history=after.leaf_history, events=after.events), after)


@pytest.mark.parametrize("file", sorted(demo_cases().glob("*.toml")), ids=lambda file: file.stem)
def test_case_files_go_in_and_come_out_equal(book, file):
    case, _ = read_case(file)
    record = cases.import_case(book, case, case.plant.name or file.stem)
    same(cases.read_case_record(book, record), case)


def test_a_case_file_adds_to_what_the_journal_knows(book):
    plant = plants.add_plant(book, "Kettle")
    counts.add_count(book, plant.id, LeafCount(date=dt.date(2026, 1, 1), present=9))
    case = Case(
        date=DAY, plant=Plant(name="kettle"), leaf_history=(LeafCount(date=dt.date(2026, 2, 1), present=8),)
    )
    record = cases.import_case(book, case, "kettle")
    assert record.plant_id == plant.id
    assert [c.present for c in cases.read_case_record(book, record).leaf_history] == [9, 8]


def test_a_case_of_a_day_knows_nothing_of_later_days(book):
    plant = plants.add_plant(book, "Kettle")
    counts.add_count(book, plant.id, LeafCount(date=DAY + dt.timedelta(days=7), present=4))
    plants.add_event(book, plant.id, Event(date=DAY + dt.timedelta(days=7), kind="moved"))
    record = cases.begin_case(book, plant.id, DAY)
    assert cases.read_case_record(book, record).leaf_history == ()
    later = cases.read_case_record(book, record, DAY + dt.timedelta(days=7))
    assert (len(later.leaf_history), len(later.events)) == (1, 1)


def test_one_case_at_a_time_is_open(book):
    plant = plants.add_plant(book, "Kettle")
    first = cases.begin_case(book, plant.id, DAY)
    assert cases.begin_case(book, plant.id, DAY + dt.timedelta(days=9)) == first
    cases.settle(book, first, DAY, "drought", "it drank a litre")
    second = cases.begin_case(book, plant.id, DAY + dt.timedelta(days=9))
    assert second.id > first.id
    assert [one.settled for one in cases.cases_of(book, plant.id)] == [True, False]
    assert cases.outcomes(book)[first.id].how == "it drank a litre"


def test_what_a_case_tells_of_the_profile_is_known_the_next_time(book):
    plant = plants.add_plant(book, "Kettle")
    record = cases.begin_case(book, plant.id, DAY)
    case = cases.read_case_record(book, record)
    cases.save_change(
        book, record, case, case.model_copy(update={"plant": Plant(name="Kettle", profile="alocasia")})
    )
    assert plants.find_plant(book, "Kettle").profile == "alocasia"


def test_rankings_and_plans_come_back_as_they_stood(book, diagnostician):
    case, _ = read_case(demo_cases() / "soggy_after_the_big_pot.toml")
    record = cases.import_case(book, case, "Kettle")
    diagnosis = diagnostician.diagnose(cases.read_case_record(book, record))
    kept = rankings.add_ranking(book, record, diagnosis)
    assert kept.rules_hash == diagnosis.base.hash
    assert kept.case == diagnosis.case
    assert [(c.id, c.score_db) for c in kept.causes] == [(c.id, c.score_db) for c in diagnosis.ranking.causes]
    assert all(sum(line.decibans for line in c.lines) == c.score_db for c in kept.causes)
    assert rankings.add_ranking(book, record, diagnosis) == kept  # the same again is kept once
    plan = plan_for(diagnosis)
    stored = plans.add_plan(book, kept, plan)
    assert [(s.advice, s.due_on, s.look_again_on, s.expect) for s in stored.steps] == [
        (s.id, s.date, s.look_again, s.expect) for s in plan.steps
    ]
    assert set(stored.looks) == {look.date for look in plan.looks}
    plans.step_done(book, stored.steps[0], DAY)
    plans.add_follow_up(book, stored, DAY, "partly", "one leaf fewer")
    (again,) = plans.plans_of(book, record.id)
    assert again.steps[0] == replace(stored.steps[0], done_on=DAY)
    assert [(f.date, f.seen, f.note) for f in again.follow_ups] == [(DAY, "partly", "one leaf fewer")]


def test_plants_places_photos_and_events(book):
    plants.locate_place(
        book, Place(label="east sill", city="Leeds", country="GB", latitude=53.8, longitude=-1.5)
    )
    kettle = plants.add_plant(
        book, " Kettle ", place="east sill", kind="alocasia", pot_cm=12.5, medium="bark", note="a gift"
    )
    assert (kettle.name, kettle.place, kettle.pot_cm) == ("Kettle", "east sill", 12.5)
    assert cases.place_of(book, kettle).city == "Leeds"
    moved = plants.change_plant(book, kettle, place="hall", profile="alocasia")
    assert (moved.place, moved.profile, moved.medium) == ("hall", "alocasia", "bark")
    plants.add_photo(book, kettle.id, DAY, "/pictures/k.jpg", "from the left")
    assert [(p.path, p.note) for p in plants.photos(book, kettle.id)] == [
        ("/pictures/k.jpg", "from the left")
    ]
    for _ in range(2):
        plants.add_event(book, kettle.id, Event(date=DAY, kind="fed", note="batch K"))
    assert [(e.kind, e.note) for e in plants.events(book)] == [("fed", "batch K")]
    plants.change_plant(book, moved, gone_on=DAY)
    assert plants.all_plants(book) == ()
    assert plants.all_plants(book, gone_too=True)[0].gone_on == DAY


@pytest.mark.parametrize("name", ["", "   ", "half \ud800 character", "nul \x00"])
def test_names_that_cannot_be_kept_are_refused(book, name):
    with pytest.raises(BadInputError):
        plants.add_plant(book, name)
    assert plants.all_plants(book) == ()


def test_names_are_found_whatever_their_letters_and_the_nearest_is_named(book):
    plants.add_plant(book, "Copper Kettle")
    assert plants.find_plant(book, "copper kettle").name == "Copper Kettle"
    with pytest.raises(BadInputError, match="did you mean 'Copper Kettle'"):
        plants.find_plant(book, "Coper Kettle")
    with pytest.raises(BadInputError, match="a name of its own"):
        plants.add_plant(book, "COPPER KETTLE")


@pytest.mark.parametrize("hostile", ["x'); DROP TABLE plants; --", "[red]", "%s {0}", "=1+1", '"', "a\nb"])
def test_hostile_text_is_only_text(book, hostile):
    plant = plants.add_plant(book, hostile, note=hostile, place=hostile)
    assert (plant.name, plant.note, plant.place) == (hostile, hostile, hostile)
