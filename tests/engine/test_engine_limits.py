"""Each bound of the engine: a rule base just inside it, and one just outside, which is never loaded."""

from collections.abc import Callable
from contextlib import closing
from typing import Any

import pytest

from diagnose.engine import EngineLimitError, RuleEngine, limits
from diagnose.engine.limits import fnv
from diagnose.rulebase.conditions import Condition
from random_rules import Facts, Rules, evidence, rule

COLLIDING = ("finding_29189", "finding_349416")


def fact(name: str, **test: Any) -> dict[str, Any]:
    return {"fact": name, **(test or {"is": "yes"})}


def each_its_own_fact(count: int) -> Rules:
    return [evidence(f"e{number}", fact(f"fact_{number}")) for number in range(count)]


def each_its_own_finding(count: int) -> Rules:
    return [evidence(f"e{number}", {"finding": f"found_{number}"}) for number in range(count)]


def patterns(count: int) -> Rules:
    return [evidence("wide", {"all": [fact(f"fact_{number}") for number in range(count)]})]


def sharing(count: int) -> Rules:
    return [evidence(f"e{number}", fact("shared")) for number in range(count)]


def thresholds(count: int) -> Rules:
    return [evidence(f"e{number}", fact("x", above=number)) for number in range(count)]


def sets_of_tests(count: int) -> Rules:
    pairs = [(low, high) for low in range(8) for high in range(10, 18)][:count]
    return [
        evidence(f"e{number}", fact("x", between=[low, high])) for number, (low, high) in enumerate(pairs)
    ]


def alternatives(count: int) -> Rules:
    return [evidence("split", {"any": [fact(f"fact_{number}") for number in range(count)]})]


def engine_rules(count: int) -> Rules:
    facts = [fact(f"fact_{number}") for number in range(400)]
    made = [evidence(f"e{number}", {"any": facts[number * 10 % 400 :][:10]}) for number in range(count // 10)]
    return [*made, *(evidence(f"more{number}", fact("one_more")) for number in range(count % 10))]


@pytest.mark.parametrize(
    ("build", "most", "fires", "named"),
    [
        (each_its_own_fact, 500, 500, "facts: found 501 different names"),
        (each_its_own_finding, 500, 500, "findings: found 501 different names"),
        (patterns, 16, 1, "rule wide: found 17 facts and findings"),
        (sharing, 250, 250, "fact shared: found 251 rules"),
        (thresholds, 60, 9, "fact x: found 61 different tests"),
        (sets_of_tests, 60, 60, "fact x: found 61 different sets of tests"),
        (alternatives, 64, 1, "rule split: found a condition that multiplies out into 65"),
        (engine_rules, 4000, 400, "rules: found 4,001 with their alternatives"),
    ],
)
def test_a_bound_holds_on_both_sides(
    build: Callable[[int], Rules], most: int, fires: int, named: str
) -> None:
    inside = build(most)
    assert limits(inside) == []
    facts: Facts = {f"fact_{number}": "yes" for number in range(500)}
    facts |= {"shared": "yes", "x": 9}
    with closing(RuleEngine(inside)) as engine:
        assert len(engine.infer(facts, [f"found_{number}" for number in range(500)])) == fires
    outside = build(most + 1)
    assert any(problem.sentence().startswith(named) for problem in limits(outside))
    with pytest.raises(EngineLimitError, match=named):
        RuleEngine(outside)


def test_513_names_which_the_engine_would_load_for_ever_are_refused() -> None:
    with pytest.raises(EngineLimitError, match="513 different names"):
        RuleEngine(each_its_own_fact(513))
    with pytest.raises(EngineLimitError, match="513 different names"):
        RuleEngine(each_its_own_finding(513))
    with pytest.raises(EngineLimitError, match="513 different tests"):
        RuleEngine(thresholds(513))


def test_sixty_tests_true_at_once_fit() -> None:
    with closing(RuleEngine(thresholds(60))) as engine:
        assert len(engine.infer({"x": 1000})) == 60


def test_sixty_sets_of_tests_true_at_once_fit_with_every_alternative_shared() -> None:
    rules = sets_of_tests(60)
    with closing(RuleEngine(rules)) as engine:
        assert len(engine.infer({"x": 9})) == 60
    words = [evidence(f"e{number}", fact("w", one_of=["a", "b"])) for number in range(250)]
    with closing(RuleEngine(words)) as engine:
        assert len(engine.infer({"w": "b"})) == 250


@pytest.mark.parametrize(
    ("name", "expected"),
    [("", 0x811C9DC5), ("a", 0xE40C292C), ("b", 0xE70C2DE5), ("foobar", 0xBF9CF968)],
)
def test_the_hash_is_fnv_1a(name: str, expected: int) -> None:
    """From memory: the offset basis, and vectors of the reference implementation's own test (Noll)."""
    assert fnv(name) == expected


def test_names_of_one_hash_are_refused_and_named() -> None:
    one, other = COLLIDING
    assert fnv(one) == fnv(other)
    as_findings: Rules = [evidence("a", {"finding": one}), evidence("b", {"finding": other})]
    as_facts: Rules = [evidence("a", fact(one)), evidence("b", fact(other))]
    mixed: Rules = [evidence("a", fact(one)), evidence("b", {"finding": other})]
    for rules in (as_findings, as_facts, mixed):
        with pytest.raises(EngineLimitError, match="'finding_29189' and 'finding_349416'"):
            RuleEngine(rules)


def test_one_name_for_a_fact_and_a_finding_is_refused() -> None:
    with pytest.raises(EngineLimitError, match="finding dry: found a fact and a finding of this name"):
        RuleEngine([evidence("a", fact("dry")), evidence("b", {"finding": "dry"})])


def test_words_of_one_hash_are_told_apart() -> None:
    one, other = COLLIDING
    rules: Rules = [evidence("a", fact("w", **{"is": one})), evidence("b", fact("w", **{"is": other}))]
    with closing(RuleEngine(rules)) as engine:
        assert [firing.rule for firing in engine.infer({"w": other})] == ["b"]


def test_an_id_twice_is_refused() -> None:
    with pytest.raises(EngineLimitError, match="rule same: found 2 rules of this id"):
        RuleEngine([rule("same", fact("a")), evidence("same", fact("b"))])


def test_otherwise_on_a_finding_is_refused() -> None:
    with pytest.raises(
        EngineLimitError, match="rule e: found otherwise on a condition that uses the finding 'f'"
    ):
        RuleEngine([evidence("e", {"any": [fact("a"), {"finding": "f"}]}, otherwise=True)])


def test_a_word_test_and_a_number_test_of_one_fact_are_refused() -> None:
    with pytest.raises(EngineLimitError, match="fact x: found a test for a word and one for a number"):
        RuleEngine([evidence("a", fact("x", above=15)), evidence("b", fact("x"))])


@pytest.mark.parametrize("number", [1e12, -1e12, 1e-5, 2.00005])
def test_numbers_that_the_engine_would_misread_are_refused_in_rules(number: float) -> None:
    with pytest.raises(EngineLimitError, match="fact x: found"):
        RuleEngine([evidence("e", fact("x", below=number))])


@pytest.mark.parametrize("number", [float("nan"), float("inf"), True, "15"])
def test_what_is_no_number_never_becomes_part_of_a_rule(number: Any) -> None:
    with pytest.raises(ValueError, match="below"):
        evidence("e", fact("x", below=number))
    past_the_shape = Condition.model_construct(fact="x", below=number)
    with pytest.raises(EngineLimitError, match="fact x: found"):
        RuleEngine([evidence("e", fact("a")).model_copy(update={"when": past_the_shape})])


@pytest.mark.parametrize("name", ["weiß", "Upper", 'quo"te', "", "a b", "\ud800"])
def test_names_and_words_other_than_plain_ones_are_refused(name: str) -> None:
    plain = evidence("e", fact("a"))
    for odd in (
        Condition.model_construct(fact=name, is_="yes"),
        Condition.model_construct(fact="x", is_=name),
        Condition.model_construct(finding=name),
    ):
        with pytest.raises(EngineLimitError, match="lower-case letters"):
            RuleEngine([plain, plain.model_copy(update={"id": "odd", "when": odd})])


def test_words_have_no_order() -> None:
    word: Any = "word"
    past_the_shape = Condition.model_construct(fact="x", below=word)
    with pytest.raises(EngineLimitError, match="words have no order"):
        RuleEngine([evidence("e", fact("a")).model_copy(update={"when": past_the_shape})])


def test_every_fault_is_told_at_once() -> None:
    negated = evidence("otherwise", {"finding": "f"}, otherwise=True)
    rules = [*patterns(17), *thresholds(61), negated]
    places = {problem.key for problem in limits(rules)}
    assert places == {"rule wide", "fact x", "rule otherwise"}
