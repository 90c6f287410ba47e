"""What to check next, what if, and how sure: as plain text."""

import datetime as dt
from collections.abc import Iterator, Sequence

from diagnose.diagnosis import Diagnosis
from diagnose.measures.measure import percentage
from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import JITTERS, SPREAD, Firmness
from diagnose.reasoning.known import answer_of
from diagnose.reasoning.next_checks import Check, Move, NextChecks, Outcome
from diagnose.reasoning.options import answer_said
from diagnose.reasoning.several import Several, Sign
from diagnose.report.text import bullet_list, hung, ordinal, wrapped
from diagnose.report.words import decibans, heading, lower_first, percent, verdict

CHECKS_SHOWN = 5
MOVES_SHOWN = 2
SETS_SHOWN = 3
SMALL_MOVE = 0.02
"""A probability that moves by less is not worth a word in a list of moves."""
EFFORTS = {
    "think": "think back",
    "look": "look",
    "touch": "feel",
    "unpot": "take it out of its pot",
    "wait": "wait and see",
}


def next_text(diagnosis: Diagnosis, found: NextChecks, shown: int = CHECKS_SHOWN) -> str:
    """Return the questions to answer next, what each answer would do, and whether to stop."""
    parts = [heading(diagnosis), ""]
    if found.enough:
        parts += wrapped(
            "No open question is expected to move the ranking by much: this is a good moment to stop asking and "
            "to act."
        )
    else:
        parts += wrapped("What to check next: what tells most for the least effort comes first.")
    for place, check in enumerate(found.checks[:shown], start=1):
        parts += ["", *_check(diagnosis, place, check)]
    rest = [check for check in found.checks[shown:] if not check.hardly_matters]
    if rest:
        ids = ", ".join(check.question.id for check in rest)
        parts += ["", *wrapped(f"{len(rest)} more would tell something: {ids}.")]
    if found.unweighed:
        parts += [
            "",
            "Also open; what they bring depends on the figures:",
            *bullet_list(f"{question.text} ({question.id})" for question in found.unweighed),
        ]
    return "\n".join(parts)


def what_if_text(diagnosis: Diagnosis, found: WhatIfAnswer) -> str:
    """Return the ranking before and after some answers are changed."""
    today = diagnosis.case.date
    parts = ["If", *bullet_list(_changed(found, today)), ""]
    before, after = found.before.first, found.after.first
    names = {cause.id: cause.name for cause in diagnosis.ranking.causes}
    if not found.moves:
        return "\n".join([*parts, "nothing would change. The case is left as it is."])
    verb = "would come first instead of" if found.changes_first else "would still come first, before"
    other = before if found.changes_first else found.after.order[1]
    parts += wrapped(f"{lower_first(names[after])} {verb} {lower_first(names[other])}:")
    probability = {move.cause: move for move in found.moves}
    for place, cause in enumerate(found.after.order, start=1):
        parts.append(_after_line(diagnosis, place, cause, probability.get(cause)))
    return "\n".join([*parts, "", "The case is left as it is."])


def firm_text(
    diagnosis: Diagnosis,
    firmness: Firmness,
    change: WhatWouldChange,
    both: tuple[Conflicts, Several],
) -> str:
    """Return how sure the ranking is: its firmness, what would change it, conflicts, and several causes."""
    conflicts, several = both
    parts = [heading(diagnosis), *wrapped(verdict(diagnosis)), ""]
    parts += [*_firmness(diagnosis, firmness), "", *_change(diagnosis, change)]
    if conflicts.contradictions:
        parts += ["", "Answers that hardly go together:"]
        parts += bullet_list(each.text for each in conflicts.contradictions)
    for each in conflicts.both_ways:
        parts += ["", *wrapped(f"Strong signs speak both for and against {lower_first(each.cause.name)}:")]
        for line in (*each.lines_for, *each.lines_against):
            parts += hung(f"{decibans(line.decibans):>9}  ", line.text)
    return "\n".join([*parts, "", *_several(several)])


def _check(diagnosis: Diagnosis, place: int, check: Check) -> Iterator[str]:
    question = check.question
    yield from hung(f"{place:>2}  ", f"{question.text} ({EFFORTS[question.effort]}; {question.id})")
    if check.said_not_known:
        yield from hung("    ", "You said that you did not know; it can be looked up.")
    yield from hung("    ", f"How: {question.help}")
    for outcome in check.outcomes:
        yield from hung("    - ", _outcome(diagnosis, outcome))


def _outcome(diagnosis: Diagnosis, outcome: Outcome) -> str:
    told = [move for move in outcome.moves if abs(move.after - move.before) >= SMALL_MOVE][:MOVES_SHOWN]
    said = f"{outcome.said} ({percent(outcome.chance)} likely): "
    names = {cause.id: lower_first(cause.name) for cause in diagnosis.ranking.causes}
    moves = "; ".join(
        f"{names[move.cause]} from {percent(move.before)} to {percent(move.after)}" for move in told
    )
    first = ""
    if outcome.first != diagnosis.ranking.first.id:
        first = f"; {names[outcome.first]} would then come first"
    return said + (moves or "changes next to nothing") + first


def _changed(found: WhatIfAnswer, today: dt.date) -> list[str]:
    return [
        f'"{change.question.text}" were answered "{answer_said(change.question, change.instead, today)}" '
        f'instead of "{answer_said(change.question, change.now, today)}"'
        for change in found.changes
    ]


def _after_line(diagnosis: Diagnosis, place: int, cause: str, move: Move | None) -> str:
    ranked = diagnosis.ranking.of(cause)
    if move is None:
        return f"{place:>3}  {ranked.name:<40} {percent(ranked.probability):>6}"
    was = f"  was {ordinal(ranked.rank)}" if ranked.rank != place else ""
    change = f"{percent(move.after):>6}  from {percent(move.before):>5}  {decibans(move.decibans)}"
    return f"{place:>3}  {ranked.name:<40} {change}{was}"


def _firmness(diagnosis: Diagnosis, firmness: Firmness) -> Iterator[str]:
    yield from wrapped(
        f"{diagnosis.ranking.first.name} comes first, and that place is {firmness.word}. With the weights of all rules "
        f"moved at random, each by about {percentage(SPREAD)}, {JITTERS:,} times over, it stayed first in "
        f"{percent(firmness.stays_first)} of them and among the first two in {percent(firmness.stays_in_two)}."
    )
    hangs_on = firmness.hangs_on
    if hangs_on is None:
        yield from wrapped("It hangs on no single answer.")
        return
    question = hangs_on.question
    told = answer_said(question, answer_of(diagnosis, question), diagnosis.case.date)
    start = f'The answer it hangs on most: "{question.text}" ({told}). Without it '
    if hangs_on.first != diagnosis.ranking.first.id:
        other = lower_first(diagnosis.ranking.of(hangs_on.first).name)
        yield from wrapped(f"{start}{other} would come first.")
    else:
        yield from wrapped(
            f"{start}the lead would be {hangs_on.lead_db:g} dB instead of {firmness.lead_db:g} dB."
        )


def _change(diagnosis: Diagnosis, change: WhatWouldChange) -> Iterator[str]:
    if not change.found:
        extent = f"No {_answers(change.searched)} of the {change.answers} given"
        yield from wrapped(f"{extent} would, had they been others, put another cause first.")
        if change.cut_off:
            yield from wrapped("Among sets of three the most promising were tried, not all; none did.")
        return
    sets = "one way" if change.count == 1 else f"{change.count} ways"
    yield from wrapped(
        f"What would change it: {_answers(change.size)} of the {change.answers} given ({sets} found)."
    )
    if change.cut_off:
        yield from wrapped("Among sets of three the most promising were tried, not all.")
    for found in change.found[:SETS_SHOWN]:
        other = lower_first(diagnosis.ranking.of(found.after.first).name)
        yield from hung(
            "- ", f"If {' and '.join(_changed(found, diagnosis.case.date))}, {other} would come first."
        )


def _answers(count: int) -> str:
    return {1: "one answer", 2: "two answers", 3: "three answers"}[count]


def _several(several: Several) -> Iterator[str]:
    if len(several.probable) > 1:
        yield "More than one cause is likely. What only one of them explains:"
        for each in several.probable:
            yield from hung(
                "- ", f"{each.cause.name} ({percent(each.cause.probability)}): {_said(each.alone)}"
            )
    if several.unexplained:
        yield from wrapped("Not explained by any likely cause (each speaks for an unlikely one alone):")
        yield from bullet_list(sign.text for sign in several.unexplained)
    if several.silent:
        silent = ", ".join(sign.id for sign in several.silent)
        yield from wrapped(f"Told, but no rule made anything of it: {silent}.")


def _said(signs: Sequence[Sign]) -> str:
    """Return signs in words: findings, which say more, and answers only where there is no finding."""
    findings = [sign.text for sign in signs if sign.kind == "finding"]
    return "; ".join(findings or [sign.text for sign in signs]) or "nothing that another does not explain too"
