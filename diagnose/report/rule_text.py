"""Entries of the rule base in words."""

import textwrap
from collections.abc import Iterable, Mapping

from diagnose.report.text import WIDTH, origin_said_in
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.model import Cause, Evidence, Finding, PlantProfile, Question, Rule
from diagnose.rulebase.rulebase import AnyEntry, RuleBase
from diagnose.rulebase.strengths import DECIBANS
from diagnose.rulebase.vocabulary import Term

_SAID = {
    "is": "is",
    "is_not": "is not",
    "one_of": "is one of",
    "below": "is below",
    "above": "is above",
    "at_least": "is at least",
    "at_most": "is at most",
}


def tables(base: RuleBase) -> dict[str, Mapping[str, AnyEntry]]:
    """Return the rule base's tables by the name they have in rule files."""
    return {
        "subject": base.subjects,
        "question": base.questions,
        "finding": base.findings,
        "rule": base.rules,
        "evidence": base.evidence,
        "cause": base.causes,
        "plant": base.plants,
        "advice": base.advice,
        "caution": base.cautions,
        "source": base.sources,
    }


def one_liner(base: RuleBase, table: str, entry: AnyEntry) -> str:
    """Return an entry as one line: kind, id, gist, and whether it is house."""
    gist = next(
        (getattr(entry, name) for name in ("because", "text", "name", "title") if getattr(entry, name, None)), ""
    )
    house = " (house)" if base.is_house(table, entry.id) else ""
    return f"{table:<9} {entry.id:<40} {gist}{house}"


def entry_text(base: RuleBase, table: str, entry: AnyEntry, width: int = WIDTH) -> str:
    """Return all of an entry in words, in lines of at most `width` cells."""
    paragraphs = _paragraphs(base, table, entry)
    return "\n".join(
        textwrap.fill(one, width, subsequent_indent="  " if one.startswith("- ") else "") for one in paragraphs
    )


def _paragraphs(base: RuleBase, table: str, entry: AnyEntry) -> list[str]:
    standing = base.standing[table, entry.id]
    lines = [f"{table} {entry.id}" + (" (house)" if standing.house else ""), f"in {standing.file}", ""]
    if isinstance(entry, Evidence):
        lines += _evidence(base, entry)
    elif isinstance(entry, Rule):
        lines += [f"If {condition_text(entry.when, base.vocabulary)}:", f"concludes {entry.gives}."]
    elif isinstance(entry, Question):
        lines += [entry.text, entry.help, f"Why: {entry.why}", ""]
        lines += _bullets(f"{choice.id}: {choice.label}" for choice in entry.choices)
    elif isinstance(entry, Cause):
        lines += [entry.what, f"How it looks: {entry.looks}"]
        lines += [f"What settles it: {entry.settles}", f"Prior: {entry.prior_db:+g} dB"]
    elif isinstance(entry, Finding):
        lines += [entry.text, "", "Concluded by:"]
        lines += _bullets(
            f"{rule.id}: if {condition_text(rule.when, base.vocabulary)}"
            for rule in base.rules.values()
            if rule.gives == entry.id
        )
    elif isinstance(entry, PlantProfile):
        lines += [entry.name, *_bullets(f"{need}: {value}" for need, value in entry.needs if value)]
        lines += _bullets(trait.replace("_", " ") for trait in entry.traits)
    else:
        lines.append(str(getattr(entry, "text", getattr(entry, "title", getattr(entry, "name", "")))))
    return [*lines, *_origin(base, entry)]


def condition_text(condition: Condition, vocabulary: Mapping[str, Term]) -> str:
    """Return a condition in words."""
    for name, joint in (("all", " and "), ("any", " or ")):
        inner = getattr(condition, name)
        if inner:
            parts = [condition_text(one, vocabulary) for one in inner]
            return joint.join(f"({part})" if one.all or one.any else part for part, one in zip(parts, inner, strict=True))
    if condition.finding:
        return condition.finding.replace("_", " ")
    term = vocabulary.get(condition.fact or "") or Term(condition.fact or "", "question", "")
    operator = condition.operator
    operand = condition.operand(operator)
    values = operand if isinstance(operand, tuple) else (operand,)
    said = [term.said(value) for value in values if value is not None]
    name = term.name.replace("_", " ").replace(".", ": ")
    if operator == "between":
        return f"{name} is between {said[0]} and {said[1]}"
    return f"{name} {_SAID[operator]} {' or '.join(said)}"


def _evidence(base: RuleBase, entry: Evidence) -> list[str]:
    vocabulary = base.vocabulary
    lines = [f"If {condition_text(entry.when, vocabulary)}:"]
    lines.append(
        f"{entry.speaks} {base.causes[entry.cause].name}, {entry.strength.replace('_', ' ')} "
        f"({DECIBANS[entry.strength]:g} dB): {entry.because}"
    )
    if entry.otherwise:
        other = "against" if entry.speaks == "for" else "for"
        lines.append(
            f"If that is known not to be so: {other} it, {entry.otherwise.replace('_', ' ')} "
            f"({DECIBANS[entry.otherwise]:g} dB): {entry.otherwise_because}"
        )
    if entry.group:
        lines.append(f"Group: {entry.group.replace('_', ' ')} (the strongest line counts in full, the others half)")
    for label, text in (("How the strength was set", entry.strength_from), ("Disputed", entry.disputed)):
        if text:
            lines.append(f"{label}: {text}")
    return lines


def _origin(base: RuleBase, entry: AnyEntry) -> list[str]:
    origin = getattr(entry, "origin", ())
    names = (origin,) if isinstance(origin, str) else origin
    return [""] + _bullets(f"origin: {origin_said_in(base, name)}" for name in names) if names else []


def _bullets(items: Iterable[str]) -> list[str]:
    return [f"- {item}" for item in items]
