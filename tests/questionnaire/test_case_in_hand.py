"""A case in hand: the next question does not wait for the ranking, and nothing told is lost."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case, LeafCount, Place
from diagnose.casefile import read_case
from diagnose.questionnaire import Questionnaire, TypedError
from diagnose.questionnaire.bookmarks import MOST, read_bookmark, write_bookmark
from diagnose.questionnaire.outline import outline
from diagnose.questionnaire.records import known_place
from diagnose.questionnaire.said import ago_said, answer_said, leaves_said, place_said
from diagnose.questionnaire.table import read_leaf_row
from diagnose.questionnaire.telling import telling
from diagnose.settings import Settings, read_settings, write_settings

TODAY = dt.date(2026, 11, 25)


@pytest.fixture
def asked(diagnostician, tmp_path):
    return Questionnaire(diagnostician, Case(date=TODAY), tmp_path / "case.toml", at_once=False)


def state(asked, question):
    return next(item.state for item in asked.items if item.question.id == question)


def test_questions_are_skipped_before_the_ranking_is_made_anew(asked):
    asked.jump("drooping")
    asked.answer("none")
    assert asked.is_behind
    assert state(asked, "medium_when_drooping") == "skipped"
    assert (2, "nothing droops") in asked.skipped_now


def test_an_answer_is_on_disk_at_once(asked):
    asked.jump("drooping")
    asked.answer("whole_plant")
    assert read_case(asked.path)[0].answers == {"drooping": "whole_plant"}


def test_only_the_diagnosis_of_the_case_as_it_is_settles(asked, diagnostician):
    asked.jump("drooping")
    asked.answer("none")
    old = asked.case
    asked.jump("drooping")
    asked.answer("whole_plant")
    assert not asked.settle(old, diagnostician.diagnose(old))
    assert asked.settle(asked.case, diagnostician.diagnose(asked.case))
    assert not asked.is_behind


def test_kept_parts_stay_at_the_question_and_undo_takes_them_back(asked):
    asked.jump("leaf_history")
    asked.keep((LeafCount(date=TODAY, present=4),))
    assert asked.current.id == "leaf_history"
    assert read_case(asked.path)[0].leaf_history[0].present == 4
    assert asked.undo()
    assert read_case(asked.path)[0].leaf_history == ()


def test_progress_counts_what_applies(asked):
    asked.jump("drooping")
    asked.do_not_know()
    assert sum(one.done for one in asked.progress()) == 1
    assert sum(one.total for one in asked.progress()) == len(asked.applicable)


def test_a_quick_outline_agrees_with_the_full_diagnosis(diagnostician):
    from diagnose import locations

    for path in sorted(locations.demo_cases().glob("*.toml")):
        case, _ = read_case(path)
        diagnosis = diagnostician.diagnose(case)
        items = outline(case, diagnosis)
        assert {i.question.id for i in items if i.state == "skipped"} == {q.id for q in diagnosis.skipped}
        assert {i.question.id for i in items if i.state == "open"} == {q.id for q in diagnosis.unanswered}


def test_what_each_answer_would_tell_is_what_it_then_does(asked, diagnostician):
    question = diagnostician.base.questions["drooping"]
    before = diagnostician.diagnose(asked.case).ranking
    for choice, told in zip(question.choices, telling(diagnostician, asked.case, question), strict=True):
        after = diagnostician.diagnose(
            asked.case.model_copy(update={"answers": {"drooping": choice.id}})
        ).ranking
        moves = {r.name: r.score_db - before.of(r.id).score_db for r in after.causes}
        assert told.label == choice.label
        assert all(moves[name] == by != 0 for name, by in told.moved)
        assert max((abs(by) for by in moves.values()), default=0) == max(
            (abs(by) for _, by in told.moved), default=0
        )


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (0, "today"),
        (1, "yesterday"),
        (13, "13 days ago"),
        (21, "3 weeks ago"),
        (91, "3 months ago"),
        (1096, "3 years ago"),
    ],
)
def test_spans_are_said_in_the_unit_people_use(days, said):
    assert ago_said(days) == said


def test_answers_are_said_in_words(base):
    case = Case(date=TODAY, answers={"night_low_c": 10.0, "drooping": "none", "pest_signs": (), "misty": 1})
    questions = base.questions
    assert answer_said(case, base, questions["night_low_c"], "imperial") == "50 °F"
    assert answer_said(case, base, questions["drooping"]) == "nothing droops"
    assert answer_said(case, base, questions["pest_signs"]) == "none of these"
    assert answer_said(case, base, questions["stretched"]) == ""


def test_places_and_leaves_in_words():
    assert place_said(Place(latitude=-37.8, longitude=145)) == "37.8 south, 145 east"
    assert leaves_said((LeafCount(date=TODAY, present=4),)) == "4 leaves on 25 November 2026"


def test_an_unknown_town_is_refused_and_a_known_one_placed():
    place, said = known_place("Perth, AU")
    assert (place.city, place.country) == ("Perth", "AU")
    assert said.endswith("degrees south")
    with pytest.raises(TypedError, match="No town"):
        known_place("Nowhereham-under-Nothing")


@pytest.mark.parametrize(
    ("fields", "word"),
    [
        ({"date": "soon"}, "date"),
        ({"present": ""}, "leaves"),
        ({"new": "-1"}, "opened"),
        ({"lost": "1001"}, "lost"),
        ({"which": "left"}, "oldest"),
    ],
)
def test_a_leaf_count_at_fault_names_its_field(fields, word):
    good = {"date": "2 weeks ago", "present": "4", "new": "1", "lost": "", "which": "o"}
    assert read_leaf_row(good, TODAY) == LeafCount(
        date=dt.date(2026, 11, 11), present=4, new=1, lost_which="oldest"
    )
    with pytest.raises(TypedError, match=word):
        read_leaf_row(good | fields, TODAY)


@given(st.lists(st.tuples(st.sampled_from("abc"), st.sampled_from(["one", "two", None])), max_size=8))
def test_the_last_bookmark_of_a_case_counts(marks):
    import tempfile
    from pathlib import Path

    with tempfile.TemporaryDirectory() as folder:
        file, expected = Path(folder) / "marks.json", {}
        for case, question in marks:
            write_bookmark(file, Path(case), question)
            expected[case] = question
        assert {case: read_bookmark(file, Path(case)) for case in expected} == expected


def test_bookmarks_do_not_grow_without_end_and_a_broken_file_is_none(tmp_path):
    file = tmp_path / "marks.json"
    for number in range(MOST + 5):
        write_bookmark(file, tmp_path / str(number), "q")
    assert read_bookmark(file, tmp_path / "4") is None
    assert read_bookmark(file, tmp_path / "5") == "q"
    file.write_text("[")
    assert read_bookmark(file, tmp_path / "5") is None


def test_settings_round_and_faults(tmp_path):
    file = tmp_path / "deep" / "settings.toml"
    assert read_settings(file) == (Settings(), ())
    assert write_settings(file, Settings(units="imperial")) == ()
    assert read_settings(file) == (Settings(units="imperial"), ())
    file.write_text('unit = "metric"')
    settings, (problem,) = read_settings(file)
    assert settings == Settings()
    assert "units" in problem.sentence()
