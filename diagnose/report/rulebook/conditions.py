"""Conditions, examples and origins in words, with links to what they name."""

from collections.abc import Iterator, Sequence

from diagnose.language import SOURCE, _, marked, pgettext, quoted, spoken
from diagnose.report.rulebook.page import Link, Run, filled, joined
from diagnose.report.text import origin_named, origin_said_in
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.model import Facts, Origins
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import Term

_SAID = {
    "is": marked("{fact} is {value}"),
    "is_not": marked("{fact} is not {value}"),
    "one_of": marked("{fact} is {value}"),
    "below": marked("{fact} is below {value}"),
    "above": marked("{fact} is above {value}"),
    "at_least": marked("{fact} is at least {value}"),
    "at_most": marked("{fact} is at most {value}"),
}


def condition_run(base: RuleBase, condition: Condition) -> Run:
    """Return a condition in words."""
    for name, joint in (
        ("all", pgettext("between conditions", " and ")),
        ("any", pgettext("between conditions", " or ")),
    ):
        inner: tuple[Condition, ...] = getattr(condition, name) or ()
        if inner:
            parts = [condition_run(base, one) for one in inner]
            return joined(
                (
                    ("(", *part, ")") if one.all or one.any else part
                    for part, one in zip(parts, inner, strict=True)
                ),
                joint,
            )
    if condition.finding:
        return (finding_link(base, condition.finding),)
    name = condition.fact or ""
    term = base.vocabulary.get(name) or Term(name, "question", "")
    operator = condition.operator
    operand = condition.operand(operator)
    values = operand if isinstance(operand, tuple) else (operand,)
    words = [term.said(value) for value in values if value is not None]
    if operator == "between":
        between = _("{fact} is between {least} and {most}")
        return filled(between, fact=fact_run(base, name), least=words[0], most=words[1])
    return filled(_(_SAID[operator]), fact=fact_run(base, name), value=_alternatives(words))


def _alternatives(words: Sequence[str]) -> str:
    return pgettext("between conditions", " or ").join(words)


def finding_link(base: RuleBase, finding: str) -> Link:
    """Return a finding as it is said, leading to its page."""
    entry = base.findings.get(finding)
    return Link("finding", finding, entry.text if entry else finding.replace("_", " "))


def fact_run(base: RuleBase, name: str) -> Run:
    """Return a fact's name in words, leading to its question or measure (a plant's facts have no page)."""
    term = base.vocabulary.get(name)
    words = _fact_said(name, term)
    if term is None or term.source == "plant":
        return (words,)
    return (Link(term.source, name.partition(".")[0], words),)


def _fact_said(name: str, term: Term | None) -> str:
    """Names of facts are English words; another language says the question, or what is meant."""
    if term is None or spoken() == SOURCE:
        return name.replace("_", " ").replace(".", ": ")
    return quoted(term.meaning) if term.source == "question" else term.meaning.rstrip(".")


def example_run(base: RuleBase, facts: Facts) -> Run:
    """Return a worked example in words."""
    known = [
        filled(
            _("{fact} is {value}"),
            fact=fact_run(base, name),
            value=base.vocabulary[name].said(value) if name in base.vocabulary else str(value),
        )
        for name, value in facts.items()
    ]
    return joined(known, "; ")


def origin_runs(base: RuleBase, origins: Origins) -> Iterator[Run]:
    """Yield where something is known from: a source's author, year and title, or the words themselves."""
    for name in listed(origins):
        words = origin_said_in(base, name)
        yield (Link("source", name, words),) if name in base.sources else (words,)


def origin_run(base: RuleBase, origins: Origins) -> Run:
    """Return the ids of sources, or the words, in one run."""
    return joined(
        (
            (Link("source", name, name),) if name in base.sources else (origin_named(name),)
            for name in listed(origins)
        ),
        ", ",
    )
