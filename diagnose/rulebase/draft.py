"""A new rule as TOML with comments: what `diagnose rules new` writes, worked examples included."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from diagnose.language import _
from diagnose.rulebase.model import Speaks, Strength
from diagnose.rulebase.strengths import DECIBANS
from diagnose.rulebase.vocabulary import Term

Operand = str | float | tuple[str, ...] | tuple[float, float]


@dataclass(frozen=True, slots=True)
class Test:
    """One test of one fact, an example that passes it, and one that just does not."""

    term: Term
    operator: str
    operand: Operand
    passes: str | float
    misses: str | float


@dataclass(frozen=True, slots=True)
class NewQuestion:
    """A question that the rule brings along; `choices` is id -> label, empty for yes or no and for numbers."""

    id: str
    subject: str
    text: str
    help: str
    why: str
    choices: Mapping[str, str]
    unit: str = ""
    least: float = 0
    most: float = 0


@dataclass(frozen=True, slots=True)
class Draft:
    """All that a new evidence rule needs."""

    id: str
    cause: str
    speaks: Speaks
    strength: Strength
    tests: tuple[Test, ...]
    because: str
    origin: str
    questions: tuple[NewQuestion, ...] = ()


def words_test(term: Term, chosen: Sequence[str]) -> Test:
    """Return the test that a fact is one of some words, not all it can be."""
    words = list(term.words)
    others = (word for word in words if word not in chosen)
    other = min(others, key=lambda word: abs(words.index(word) - words.index(chosen[0])))  # the nearest miss
    if len(chosen) == 1:
        return Test(term, "is", chosen[0], chosen[0], other)
    return Test(term, "one_of", tuple(chosen), chosen[0], other)


def number_test(term: Term, operator: str, low: float, high: float | None = None) -> Test:
    """Return the test of a number; examples lie a step, or half the way to the bound, beside its border."""
    if operator == "between" and high is not None:
        outside = _beside(term, high, 1) if high < term.most else _beside(term, low, -1)
        return Test(term, operator, (low, high), low, outside)
    up = 1 if operator in ("above", "at_least") else -1
    within, beyond = _beside(term, low, up), _beside(term, low, -up)
    if operator in ("above", "below"):
        return Test(term, operator, low, within, low)
    return Test(term, operator, low, low, beyond)


def draft_toml(draft: Draft) -> str:
    """Return the rule as a commented TOML file."""
    lines = [
        _remark(
            _(
                "A house rule, written by 'diagnose rules new'. Change what you like; then 'diagnose rules check'."
            )
        )
    ]
    for question in draft.questions:
        lines += ["", *_question(question)]
    when = ", ".join(_test(test) for test in draft.tests)
    strengths = ", ".join(f"{word} {decibans:g}" for word, decibans in DECIBANS.items())
    lines += [
        "",
        "[[evidence]]",
        f"id = {_written(draft.id)}",
        f"cause = {_written(draft.cause)}",
        _beside_it(f"speaks = {_written(draft.speaks)}", _("for or against the cause")),
        _beside_it(
            f"strength = {_written(draft.strength)}", _("in dB: {strengths}").format(strengths=strengths)
        ),
        _remark(_("when it speaks; with all = [...] every part must hold, with any = [...] one is enough")),
        f"when = {when}" if len(draft.tests) == 1 else f"when = {{ all = [ {when} ] }}",
        _remark(_("said on the ranking; a fact's name in braces is filled with its value")),
        f"because = {_written(draft.because)}",
        _beside_it(f"origin = {_written(draft.origin)}", _("where you know it from")),
        _remark(
            _(
                "worked examples, which the check runs: it must speak on these, and be silent on these near misses"
            )
        ),
        f"fires = [ {_facts(draft.tests, [test.passes for test in draft.tests])} ]",
        f"silent = [ {_facts(draft.tests, [draft.tests[0].misses, *(test.passes for test in draft.tests[1:])])} ]",
    ]
    return "\n".join(lines) + "\n"


def _question(question: NewQuestion) -> list[str]:
    kind = "choice" if question.choices else "number" if question.unit else "yes_no"
    lines = [
        "[[question]]",
        f"id = {_written(question.id)}",
        _beside_it(f"subject = {_written(question.subject)}", _("under which heading it is asked")),
        f"text = {_written(question.text)}",
        _beside_it(f"help = {_written(question.help)}", _("how to look")),
        _beside_it(f"why = {_written(question.why)}", _("why it is asked")),
        f"kind = {_written(kind)}",
        _beside_it('effort = "look"', _("or {others}").format(others="think, touch, unpot, wait")),
    ]
    if question.choices:
        lines += ["choices = ["]
        lines += [
            f"    {{ id = {_written(i)}, label = {_written(label)} }},"
            for i, label in question.choices.items()
        ]
        lines += ["]"]
    if question.unit:
        lines += [
            f"unit = {_written(question.unit)}",
            f"least = {question.least:g}",
            f"most = {question.most:g}",
        ]
    return lines


def _remark(text: str) -> str:
    return f"# {text}"


def _beside_it(line: str, remark: str) -> str:
    return f"{line}  {_remark(remark)}"


def _test(test: Test) -> str:
    return f"{{ fact = {_written(test.term.name)}, {test.operator} = {_written(test.operand)} }}"


def _facts(tests: Sequence[Test], values: Sequence[str | float]) -> str:
    known = {test.term.name: value for test, value in zip(tests, values, strict=True)}
    named = (f"{_written(n) if '.' in n else n} = {_written(value)}" for n, value in known.items())
    return "{ " + ", ".join(named) + " }"


def _written(value: Operand) -> str:
    """Return a value as TOML; its basic strings are JSON's, but for the delete character."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, tuple):
        return "[" + ", ".join(map(_written, value)) + "]"
    return f"{value:.10g}"


def _beside(term: Term, number: float, direction: int) -> float:
    """Return a number a step beside another one, but no further than the fact's bound."""
    step = 1.0 if term.most - term.least >= 20 else (term.most - term.least) / 20
    beside = round(number + direction * step, 4)
    return min(max(beside, term.least), term.most)
