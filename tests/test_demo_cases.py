"""Every demo story gets the ranking it tells of; every cause has one, and two stories have two causes at once."""

import pytest

from diagnose import locations
from diagnose.casefile import read_case

CASES = sorted(locations.demo_cases().glob("*.toml"))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_story_gets_the_causes_it_tells_of(diagnostician, path):
    case, problems = read_case(path)
    diagnosis = diagnostician.diagnose(case)
    first = [ranked.id for ranked in diagnosis.ranking.causes[: len(case.expect)]]
    assert problems == diagnosis.problems == ()
    assert case.expect
    assert case.story
    if len(case.expect) > 1 and diagnosis.ranking.verdict == "close":
        assert set(first) == set(case.expect)  # two causes at once: which of them leads is too close to call
    else:
        assert first == list(case.expect)


def test_every_cause_has_a_story(base):
    stories = [read_case(path)[0].expect for path in CASES]
    assert {one for story in stories for one in story} >= set(base.causes)
    assert sum(len(story) > 1 for story in stories) >= 2


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_ledger_of_every_cause_adds_up(diagnostician, path):
    for ranked in diagnostician.diagnose(read_case(path)[0]).ranking.causes:
        assert ranked.score_db == sum(line.decibans for line in ranked.lines)
