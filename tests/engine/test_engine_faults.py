"""Known faults of durable_rules 2.0.28, each shown to be out of reach through our engine."""

import multiprocessing
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import durable_rules_engine as durable
import pytest

from diagnose.engine import EngineRefusedError, Firing, RuleEngine, limits
from diagnose.engine.limits import SESSION
from random_rules import Facts, Rules, evidence, random_base, rule

TEN: Rules = [
    rule("warm", {"fact": "temp", "above": 10}, "warmth"),
    evidence("in_range", {"all": [{"fact": "temp", "above": 10}, {"fact": "temp", "below": 20}]}),
    evidence("either", {"any": [{"fact": "temp", "above": 10}, {"fact": "spot", "is": "yes"}]}),
    evidence(
        "second_is_nested",
        {"any": [{"fact": "gone", "is": "yes"}, {"all": [{"fact": "spot", "one_of": ["yes", "true"]}]}]},
    ),
    evidence("told", {"all": [{"finding": "warmth"}, {"fact": "spot", "is_not": "no"}]}),
    evidence("spotless", {"fact": "spot", "is": "yes"}, otherwise=True),
    evidence("words", {"fact": "flag", "is": "true"}, otherwise=True),
    evidence("exact", {"fact": "temp", "is": 15}),
]


@pytest.fixture
def engine() -> Iterator[RuleEngine]:
    made = RuleEngine(TEN)
    yield made
    made.close()


def ids(firings: tuple[Firing, ...]) -> set[str]:
    return {firing.rule for firing in firings}


def test_cases_in_which_no_rule_fires_are_deleted_without_a_crash(engine: RuleEngine) -> None:
    quiet: list[Facts] = [{}, {"unheard_of": 3}, {"temp": 1}, {"gone": "no"}]
    for _ in range(500):
        for facts in quiet:
            assert engine.infer(facts) == ()


def test_facts_no_rule_asks_for_are_passed_over_whatever_they_are(engine: RuleEngine) -> None:
    odd: Any = {"unasked": float("nan"), "other": True, "third": None, "fourth": 'quo"te'}
    assert engine.infer({"temp": 15} | odd) == engine.infer({"temp": 15})
    assert engine.infer({"temp": 15}, ["unheard_of_finding"]) == engine.infer({"temp": 15})


def test_two_tests_of_one_fact_match_together(engine: RuleEngine) -> None:
    assert "in_range" in ids(engine.infer({"temp": 15}))
    assert "in_range" not in ids(engine.infer({"temp": 25}))


def test_alternatives_that_both_hold_fire_once_and_name_both(engine: RuleEngine) -> None:
    firings = engine.infer({"temp": 15, "spot": "yes"})
    assert [f for f in firings if f.rule == "either"] == [Firing("either", ("spot", "temp"), ())]


def test_a_nested_second_alternative_fires_alone(engine: RuleEngine) -> None:
    assert "second_is_nested" in ids(engine.infer({"spot": "true"}))


def test_otherwise_needs_a_known_answer(engine: RuleEngine) -> None:
    assert ids(engine.infer({"spot": "no"})) == {"spotless~otherwise"}
    assert ids(engine.infer({"temp": 5})) == set()


def test_true_and_false_are_words_like_others(engine: RuleEngine) -> None:
    assert ids(engine.infer({"flag": "true"})) == {"words"}
    for word in ("false", "null", "yes", "truer"):
        assert ids(engine.infer({"flag": word})) == {"words~otherwise"}


@pytest.mark.parametrize("number", [15, 15.0, 15.00004, 14.99996])
def test_equal_numbers_are_equal_however_written(engine: RuleEngine, number: float) -> None:
    assert "exact" in ids(engine.infer({"temp": number}))


@pytest.mark.parametrize("number", [1e-05, -1e-07, 5e-324, -0.0, 0, 1e-300])
def test_numbers_written_with_an_exponent_are_read(number: float) -> None:
    bounds = [rule("at", {"fact": "x", "is": 0}), rule("above", {"fact": "x", "above": 0})]
    assert ids(RuleEngine(bounds).infer({"x": number})) == {"at"}


def test_large_numbers_keep_their_order() -> None:
    engine = RuleEngine([rule("above", {"fact": "x", "above": 99_999_999_999.9998})])
    assert ids(engine.infer({"x": 99_999_999_999.9999})) == {"above"}
    assert engine.infer({"x": 99_999_999_999.9998}) == ()
    assert ids(engine.infer({"x": 10**11})) == {"above"}


@pytest.mark.parametrize(
    "value", ["15", True, None, float("nan"), float("inf"), -float("inf"), 1e16, 10**12, (1,), "warm"]
)
def test_what_is_no_plain_number_is_refused_by_name(engine: RuleEngine, value: Any) -> None:
    with pytest.raises(EngineRefusedError, match=r"fact temp: found .*, expected a number between"):
        engine.infer({"temp": value})
    assert "warm" in ids(engine.infer({"temp": 15}))


@pytest.mark.parametrize(
    "value", [15, 15.0, True, None, "", "Yes", "é", 'quo"te', "a\\", "\ud800", "15", "a" * 70_000]
)
def test_what_is_no_plain_word_is_refused_by_name(engine: RuleEngine, value: Any) -> None:
    with pytest.raises(EngineRefusedError, match=r"fact spot: found .*, expected a word"):
        engine.infer({"spot": value})
    assert "spotless" in ids(engine.infer({"spot": "yes"}))


def test_inferring_again_and_again_gives_the_same_and_leaves_facts_alone(engine: RuleEngine) -> None:
    facts: Facts = {"temp": 15, "spot": "yes", "flag": "no"}
    before = dict(facts)
    first = engine.infer(facts)
    assert all(engine.infer(facts) == first for _ in range(300))
    assert facts == before
    assert engine.infer({}) == ()


def test_a_finding_given_and_concluded_counts_once(engine: RuleEngine) -> None:
    assert engine.infer({"temp": 15, "spot": "yes"}, ["warmth"]) == engine.infer({"temp": 15, "spot": "yes"})
    assert Firing("told", ("spot",), ("warmth",)) in engine.infer({"spot": "yes"}, ["warmth"])


class CtrlCError(BaseException):
    """Stands for Ctrl-C at an awkward moment."""


@pytest.mark.parametrize("at", ["assert_fact", "start_action_for_state", "complete_and_start_action"])
@pytest.mark.parametrize("call", range(4))
def test_an_exception_at_any_step_leaves_nothing_behind(
    engine: RuleEngine, monkeypatch: pytest.MonkeyPatch, at: str, call: int
) -> None:
    facts: Facts = {"temp": 15, "spot": "yes"}
    expected = engine.infer(facts)
    calls, real = iter(range(100)), getattr(durable, at)

    def failing(*args: Any) -> Any:
        result = real(*args)
        if next(calls) == call:
            raise CtrlCError
        return result

    monkeypatch.setattr(durable, at, failing)
    if at == "start_action_for_state" and call > 1:
        assert engine.infer(facts) == expected  # it is called twice only
    else:
        with pytest.raises(CtrlCError):
            engine.infer(facts)
    monkeypatch.setattr(durable, at, real)
    assert engine.infer({}) == ()
    assert engine.infer(facts) == expected


def test_the_session_is_deleted_when_the_engine_fails(
    engine: RuleEngine, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(handle: int, fact: str) -> Any:
        if '"spot"' in fact:
            raise durable.error("error code: 303")
        return real(handle, fact)

    real = durable.assert_fact
    monkeypatch.setattr(durable, "assert_fact", failing)
    with pytest.raises(EngineRefusedError, match="error code: 303"):
        engine.infer({"temp": 15, "spot": "yes"})
    with pytest.raises(durable.error, match="309"):  # no such session
        durable.get_facts(engine._parts[0]._handle, SESSION)


def test_a_fact_the_engine_takes_for_told_already_stops_the_case(
    engine: RuleEngine, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = durable.assert_fact

    def telling_twice(handle: int, fact: str) -> Any:
        if '"temp"' in fact:
            real(handle, fact)
        return real(handle, fact)

    with monkeypatch.context() as patched:
        patched.setattr(durable, "assert_fact", telling_twice)
        with pytest.raises(EngineRefusedError, match="code 2 when told"):
            engine.infer({"temp": 15})
    assert "warm" in ids(engine.infer({"temp": 15}))


def test_a_closed_engine_refuses_and_closing_twice_is_fine(engine: RuleEngine) -> None:
    engine.close()
    engine.close()
    with pytest.raises(EngineRefusedError, match="a closed engine"):
        engine.infer({"temp": 15})


def test_two_engines_alive_do_not_mix(engine: RuleEngine) -> None:
    other = RuleEngine([evidence("other", {"fact": "temp", "below": 100})])
    for _ in range(50):
        assert ids(other.infer({"temp": 15})) == {"other"}
        assert "warm" in ids(engine.infer({"temp": 15}))
    other.close()
    assert "warm" in ids(engine.infer({"temp": 15}))


def test_engines_come_and_go_by_the_thousand() -> None:
    for number in range(3000):
        engine = RuleEngine(TEN[:2])
        if number % 50 == 0:
            assert "warm" in ids(engine.infer({"temp": 15}))
        if number % 2:
            engine.close()  # the others go with the last reference to them


def test_threads_share_an_engine() -> None:
    rules, cases, _ = next(base for base in map(random_base, range(8, 99)) if not limits(base[0]))
    engine = RuleEngine(rules)
    expected = [engine.infer(facts) for facts in cases]
    wrong: list[int] = []

    def work(number: int) -> None:
        for _ in range(150):
            for facts, firings in zip(cases, expected, strict=True):
                if engine.infer(facts) != firings:
                    wrong.append(number)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(4)]
    interval = sys.getswitchinterval()
    sys.setswitchinterval(1e-5)
    try:
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    finally:
        sys.setswitchinterval(interval)
    assert wrong == []


def test_no_thread_of_the_engines_own_is_started(engine: RuleEngine) -> None:
    before = threading.active_count()
    engine.infer({"temp": 15})
    assert threading.active_count() == before
    assert "durable.engine" not in sys.modules


def fires_in_a_process(facts: Facts) -> list[str]:
    return sorted(ids(RuleEngine(TEN).infer(facts)))


def test_processes_each_have_their_own() -> None:
    facts: Facts = {"temp": 15, "spot": "no"}
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        assert pool.map(fires_in_a_process, [facts, facts]) == [fires_in_a_process(facts)] * 2


def test_a_locale_with_a_decimal_comma_changes_nothing(tmp_path: Path) -> None:
    """The engine reads decimals by the C locale in force: there, raw, 2.5 is not above 2.2."""
    if shutil.which("localedef") is None:
        pytest.skip("no localedef to make a locale with")
    folder = tmp_path / "de_DE.UTF-8"
    made = subprocess.run(
        ["localedef", "-i", "de_DE", "-f", "UTF-8", folder], check=False, capture_output=True
    )
    if not folder.exists():
        pytest.skip(f"localedef made no locale: {made.stderr!r}")
    script = """
import locale
locale.setlocale(locale.LC_ALL, "de_DE.UTF-8")
assert locale.localeconv()["decimal_point"] == ","
from random_rules import rule
from diagnose.engine import RuleEngine
engine = RuleEngine([rule("above", {"fact": "x", "above": 2.2}), rule("below", {"fact": "x", "below": 2.7})])
print([firing.rule for firing in engine.infer({"x": 2.5})])
"""
    here = Path(__file__).parent
    ran = subprocess.run(
        [sys.executable, "-c", script],
        env={"LOCPATH": str(tmp_path), "PYTHONPATH": f"{here}:{here.parents[1]}"},
        check=True,
        capture_output=True,
        text=True,
    )
    assert ran.stdout.strip() == "['above', 'below']"
