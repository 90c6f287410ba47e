"""Why, why not, this over that, what next, several causes, conflicts: on demo cases and random rule bases."""

import random
from contextlib import closing

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnostician
from diagnose.ranking import PROBABLE
from diagnose.reasoning.options import options
from diagnose.report.reasoning_text import versus_text, why_not_text, why_text
from diagnose.report.supposing_text import firm_text, next_text
from diagnose.rulebase.logic import truth
from diagnose.rulebase.model import RECORD_KINDS
from small_base import any_answer, small_base, small_case

DEMO = sorted(locations.demo_cases().glob("*.toml"))
SEEDS = st.integers(0, 5_000)


@pytest.fixture(params=DEMO[::3], ids=lambda path: path.stem)
def diagnosis(request, diagnostician):
    return diagnostician.diagnose(read_case(request.param)[0])


def test_reasons_add_up_to_the_score_and_their_shares_to_one(diagnosis, diagnostician):
    for ranked in diagnosis.ranking.causes:
        reasons = diagnostician.why(diagnosis, ranked.id)
        assert sum(reason.line.decibans for reason in reasons) == ranked.score_db
        assert sum(reason.share for reason in reasons) == pytest.approx(1)
        for reason in reasons:
            assert bool(reason.steps) == (reason.line.kind == "evidence")


def test_side_by_side_all_differences_add_up(diagnosis, diagnostician):
    one, *others = diagnosis.ranking.causes
    for other in others[:4]:
        found = diagnostician.versus(diagnosis, one.id, other.id)
        assert sum(row.difference for row in found.rows) == one.score_db - other.score_db == found.difference
        assert {line for row in found.rows for line in row.one} == set(one.lines)
        assert {line for row in found.rows for line in row.other} == set(other.lines)
        assert sum(row.difference for row in found.deciding) >= found.difference
        assert sum(row.difference for row in found.deciding[:-1]) < found.difference or not found.deciding
        back = diagnostician.versus(diagnosis, other.id, one.id)
        assert back.difference == -found.difference


def test_answers_that_would_lift_a_cause_really_do(diagnosis, diagnostician):
    for ranked in diagnosis.ranking.causes[1:5]:
        found = diagnostician.why_not(diagnosis, ranked.id)
        assert found.gap_db == diagnosis.ranking.first.score_db - ranked.score_db >= 0
        assert all(reason.line.decibans < 0 for reason in found.against)
        for lift in found.lifts[:2]:
            after = told(diagnostician, diagnosis, {lift.question.id: lift.answer})
            assert after.of(ranked.id).score_db == ranked.score_db + lift.decibans
            assert lift.passes == (
                after.of(ranked.id).score_db > max(c.score_db for c in after.causes if c.id != ranked.id)
            )
        if found.together:
            changes = {lift.question.id: lift.answer for lift in found.together}
            assert told(diagnostician, diagnosis, changes).first.id == ranked.id
            assert found.best_gap_db < 0


def told(diagnostician, diagnosis, changes):
    case = diagnosis.case
    return diagnostician.diagnose(case.model_copy(update={"answers": case.answers | changes})).ranking


def test_next_checks_are_ordered_and_cover_every_open_question(diagnosis, diagnostician):
    found = diagnostician.next_checks(diagnosis)
    rates = [check.bits_a_minute for check in found.checks]
    assert rates == sorted(rates, reverse=True)
    assert {c.question.id for c in found.checks} | {q.id for q in found.unweighed} == {
        q.id for q in diagnosis.unanswered if not (q.id in diagnosis.case.not_known and q.effort == "think")
    }
    for check in found.checks:
        assert sum(outcome.chance for outcome in check.outcomes) == pytest.approx(1)
        assert check.bits >= 0
        assert (check.bits == 0) == all(not outcome.moves for outcome in check.outcomes)
    best = found.checks[0]
    for outcome in best.outcomes:
        after = told(diagnostician, diagnosis, {best.question.id: outcome.answer})
        assert after.first.id == outcome.first
        for move in outcome.moves:
            assert (move.after, move.decibans) == (
                after.of(move.cause).probability,
                after.of(move.cause).score_db - diagnosis.ranking.of(move.cause).score_db,
            )
    order = diagnostician.telling_order(diagnosis)
    assert len(order) == len(found.checks) + len(found.unweighed)


def test_a_question_without_any_bearing_tells_nothing_and_enough_is_said_at_the_end(diagnostician, base):
    whole = Case(date=read_case(DEMO[0])[0].date, answers=every_answer(base, DEMO[0]))
    found = diagnostician.next_checks(diagnostician.diagnose(whole))
    assert found.enough
    assert {q.kind for q in found.unweighed} <= set(RECORD_KINDS)
    assert not diagnostician.next_checks(diagnostician.diagnose(Case(date=whole.date))).enough


def every_answer(base, path):
    case, _ = read_case(path)
    answers = {}
    for question in base.questions.values():
        possible = options(question, case.date)
        if possible:
            answers[question.id] = case.answers.get(question.id, possible[0].answer)
    return answers


def test_what_was_not_known_by_thinking_is_not_asked_again(diagnostician, base):
    thought = next(q for q in base.questions.values() if q.effort == "think" and q.kind == "choice")
    looked = next(
        q for q in base.questions.values() if q.effort == "look" and q.kind == "choice" and not q.ask_when
    )
    case = Case(date=read_case(DEMO[0])[0].date, not_known=(thought.id, looked.id))
    checks = {c.question.id: c for c in diagnostician.next_checks(diagnostician.diagnose(case)).checks}
    assert thought.id not in checks
    assert checks[looked.id].said_not_known


def test_every_sign_for_a_cause_is_explained_or_listed(diagnosis, diagnostician):
    found = diagnostician.several(diagnosis)
    probable = {each.cause.id for each in found.probable}
    signs = {(s.kind, s.id) for each in found.probable for s in each.signs} | {
        (s.kind, s.id) for s in found.unexplained
    }
    for ranked in diagnosis.ranking.causes:
        for line in ranked.lines:
            if line.decibans > 0:
                assert {("finding", name) for name in line.findings} <= signs
    for each in found.probable:
        assert each.cause.probability >= PROBABLE
        for sign in each.alone:
            assert probable & set(sign.causes) == {each.cause.id}
    told_facts = {name for name, fact in diagnosis.facts.items() if fact.is_told}
    assert {sign.id for sign in found.silent} <= told_facts


def test_explaining_twice_gives_the_same_words_whatever_the_order_of_answers(diagnosis, diagnostician, base):
    case = diagnosis.case
    shuffled = list(case.answers.items())
    random.Random(3).shuffle(shuffled)
    with closing(Diagnostician(base)) as another:
        again = another.diagnose(case.model_copy(update={"answers": dict(shuffled)}))
        for cause in (diagnosis.ranking.first.id, diagnosis.ranking.causes[2].id):
            assert words(diagnostician, diagnosis, cause) == words(another, again, cause)


def words(expert, diagnosis, cause):
    first = diagnosis.ranking.first.id
    return (
        why_text(diagnosis, cause, expert.why(diagnosis, cause)),
        why_not_text(diagnosis, expert.why_not(diagnosis, cause)),
        versus_text(diagnosis, expert.versus(diagnosis, first, cause)),
        next_text(diagnosis, expert.next_checks(diagnosis)),
    )


def test_no_sentence_has_a_hole_or_a_bare_name(diagnosis, diagnostician):
    text = firm_text(
        diagnosis,
        diagnostician.how_firm(diagnosis),
        diagnostician.what_would_change(diagnosis),
        (diagnostician.conflicts(diagnosis), diagnostician.several(diagnosis)),
    )
    text += "\n" + "\n".join(words(diagnostician, diagnosis, diagnosis.ranking.causes[1].id))
    for slip in ("None", "{", "}", "True", "False", "nan", "  ."):
        assert slip not in text.replace("None of", "")
    assert all(len(line) <= 80 for line in text.splitlines())


@given(SEEDS)
def test_an_unknown_answer_changes_nothing(seed):
    base, rng = small_base(seed), random.Random(seed)
    with closing(Diagnostician(base)) as expert:
        case = small_case(base, rng, 0.6)
        diagnosis = expert.diagnose(case)
        for question in diagnosis.unanswered:
            found = expert.what_if(diagnosis, {question.id: None})
            assert not found.moves
            said = expert.diagnose(case.model_copy(update={"not_known": (question.id,)}))
            assert said.ranking == diagnosis.ranking


@given(SEEDS)
def test_one_more_line_for_a_cause_never_lowers_it(seed):
    base, rng = small_base(seed), random.Random(seed)
    with closing(Diagnostician(base)) as expert:
        diagnosis = expert.diagnose(small_case(base, rng, 0.5))
        fired = {firing.rule for firing in diagnosis.firings}
        for question in diagnosis.unanswered:
            after = expert.what_if(diagnosis, {question.id: any_answer(question, rng)}).after
            more = {firing.rule for firing in after.firings} - fired
            assert {firing.rule for firing in after.firings} >= fired  # an answer only ever adds
            for cause, score in after.scores.items():
                added = [e for name in more if (e := base.evidence.get(name)) and e.cause == cause]
                others = [
                    n for n in more if n.endswith("~otherwise") and base.evidence[n[:-10]].cause == cause
                ]
                if added and not others and all(e.speaks == "for" for e in added):
                    assert score >= diagnosis.ranking.of(cause).score_db


def test_conflicts_hold_in_their_examples_and_in_no_near_miss(base):
    assert base.conflicts
    for conflict in base.conflicts.values():
        assert all(truth(conflict.when, facts, ()) == "true" for facts in conflict.fires), conflict.id
        assert all(truth(conflict.when, facts, ()) != "true" for facts in conflict.silent), conflict.id


def test_contradicting_answers_are_named_and_weigh_nothing(diagnostician):
    case, _ = read_case(next(path for path in DEMO if path.stem == "soggy_after_the_big_pot"))
    odd = case.model_copy(
        update={"answers": case.answers | {"medium_now": "bone_dry", "standing_water": True}}
    )
    diagnosis = diagnostician.diagnose(odd)
    named = {each.id: each for each in diagnostician.conflicts(diagnosis).contradictions}
    assert set(named["bone_dry_in_standing_water"].facts) == {"medium_now", "standing_water"}
    assert not any(line.rule in named for ranked in diagnosis.ranking.causes for line in ranked.lines)
    assert "bone_dry_in_standing_water" not in {
        each.id for each in diagnostician.conflicts(diagnostician.diagnose(case)).contradictions
    }


def test_strong_signs_both_ways_are_named(diagnostician):
    case, _ = read_case(next(path for path in DEMO if path.stem == "soggy_after_the_big_pot"))
    odd = diagnostician.diagnose(
        case.model_copy(update={"answers": case.answers | {"roots_look": "pale_firm"}})
    )
    both = {each.cause.id: each for each in diagnostician.conflicts(odd).both_ways}
    assert "root_rot" in both
    assert min(line.decibans for line in both["root_rot"].lines_for) >= 7.5
    assert max(line.decibans for line in both["root_rot"].lines_against) <= -7.5
