"""What to check next, what if, and how sure: as plain text."""

import datetime as dt
from collections.abc import Iterator, Sequence

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, and_listed, marked, ngettext, numeral
from diagnose.measures.measure import percentage
from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import JITTERS, SPREAD, Firmness
from diagnose.reasoning.known import answer_of
from diagnose.reasoning.next_checks import Check, Move, NextChecks, Outcome
from diagnose.reasoning.options import answer_said
from diagnose.reasoning.several import Several, Sign
from diagnose.report.text import bullet_list, hung, ordinal, wrapped
from diagnose.report.words import cause_said, decibans, heading, percent, verdict

CHECKS_SHOWN = 5
MOVES_SHOWN = 2
SETS_SHOWN = 3
SMALL_MOVE = 0.02
"""A probability that moves by less is not worth a word in a list of moves."""
EFFORTS = {
    "think": marked("think back"),
    "look": marked("look"),
    "touch": marked("feel"),
    "unpot": marked("take it out of its pot"),
    "wait": marked("wait and see"),
}


def next_text(diagnosis: Diagnosis, found: NextChecks, shown: int = CHECKS_SHOWN) -> str:
    """Return the questions to answer next, what each answer would do, and whether to stop."""
    parts = [heading(diagnosis), ""]
    if found.enough:
        text = _(
            "No open question is expected to move the ranking by much: this is a good moment to stop asking and "
            "to act."
        )
        parts += wrapped(text)
    else:
        parts += wrapped(_("What to check next: what tells most for the least effort comes first."))
    for place, check in enumerate(found.checks[:shown], start=1):
        parts += ["", *_check(diagnosis, place, check)]
    rest = [check for check in found.checks[shown:] if not check.hardly_matters]
    if rest:
        text = _("{count} more would tell something:")
        parts += ["", *wrapped(text.format(count=len(rest)))]
        parts += bullet_list(f"{check.question.text} ({check.question.id})" for check in rest)
    if found.unweighed:
        parts += [
            "",
            *wrapped(_("Also open; what they bring depends on the figures:")),
            *bullet_list(f"{question.text} ({question.id})" for question in found.unweighed),
        ]
    return "\n".join(parts)


def what_if_text(diagnosis: Diagnosis, found: WhatIfAnswer) -> str:
    """Return the ranking before and after some answers are changed."""
    today = diagnosis.case.date
    parts = [_("If"), *bullet_list(_changed(found, today)), ""]
    before, after = found.before.first, found.after.first
    names = {cause.id: cause.name for cause in diagnosis.ranking.causes}
    if not found.moves:
        return "\n".join([*parts, *wrapped(_("nothing would change. The case is left as it is."))])
    if found.changes_first:
        other, text = before, _("{cause} would come first instead of {other}:")
    else:
        other, text = found.after.order[1], _("{cause} would still come first, before {other}:")
    parts += wrapped(text.format(cause=cause_said(names[after]), other=cause_said(names[other])))
    probability = {move.cause: move for move in found.moves}
    for place, cause in enumerate(found.after.order, start=1):
        parts.append(_after_line(diagnosis, place, cause, probability.get(cause)))
    return "\n".join([*parts, "", *wrapped(_("The case is left as it is."))])


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
        parts += ["", _("Answers that hardly go together:")]
        parts += bullet_list(each.text for each in conflicts.contradictions)
    for each in conflicts.both_ways:
        text = _("Strong signs speak both for and against {cause}:")
        parts += ["", *wrapped(text.format(cause=cause_said(each.cause.name)))]
        for line in (*each.lines_for, *each.lines_against):
            parts += hung(f"{decibans(line.decibans):>9}  ", line.text)
    return "\n".join([*parts, "", *_several(several)])


def _check(diagnosis: Diagnosis, place: int, check: Check) -> Iterator[str]:
    question = check.question
    yield from hung(f"{place:>2}  ", f"{question.text} ({_(EFFORTS[question.effort])}; {question.id})")
    if check.said_not_known:
        yield from hung("    ", _("You said that you did not know; it can be looked up."))
    yield from hung("    ", _("How: {text}").format(text=question.help))
    for outcome in check.outcomes:
        yield from hung("    - ", _outcome(diagnosis, outcome))


def _outcome(diagnosis: Diagnosis, outcome: Outcome) -> str:
    told = [move for move in outcome.moves if abs(move.after - move.before) >= SMALL_MOVE][:MOVES_SHOWN]
    names = {cause.id: cause_said(cause.name) for cause in diagnosis.ranking.causes}
    moved = _("{cause} from {before} to {after}")
    moves = [
        moved.format(cause=names[move.cause], before=percent(move.before), after=percent(move.after))
        for move in told
    ] or [_("changes next to nothing")]
    if outcome.first != diagnosis.ranking.first.id:
        moves.append(_("{cause} would then come first").format(cause=names[outcome.first]))
    text = _("{answer} ({percent} likely): {moves}")
    return text.format(answer=outcome.said, percent=percent(outcome.chance), moves="; ".join(moves))


def _changed(found: WhatIfAnswer, today: dt.date) -> list[str]:
    text = _('"{question}" were answered "{answer}" instead of "{now}"')
    return [
        text.format(
            question=change.question.text,
            answer=answer_said(change.question, change.instead, today),
            now=answer_said(change.question, change.now, today),
        )
        for change in found.changes
    ]


def _after_line(diagnosis: Diagnosis, place: int, cause: str, move: Move | None) -> str:
    ranked = diagnosis.ranking.of(cause)
    if move is None:
        return f"{place:>3}  {ranked.name:<40} {percent(ranked.probability):>6}"
    before = _("from {percent}").format(percent=f"{percent(move.before):>5}")
    change = f"{percent(move.after):>6}  {before}  {decibans(move.decibans)}"
    was = "  " + _("was {place}").format(place=ordinal(ranked.rank)) if ranked.rank != place else ""
    return f"{place:>3}  {ranked.name:<40} {change}{was}"


def _firmness(diagnosis: Diagnosis, firmness: Firmness) -> Iterator[str]:
    text = _(
        "{cause} comes first, and that place is {firm}. With the weights of all rules moved at random, each by about "
        "{spread}, {times} times over, it stayed first in {first} of them and among the first two in {two}."
    )
    yield from wrapped(
        text.format(
            cause=diagnosis.ranking.first.name,
            firm=_(firmness.word),
            spread=percentage(SPREAD),
            times=numeral(JITTERS, ",d"),
            first=percent(firmness.stays_first),
            two=percent(firmness.stays_in_two),
        )
    )
    hangs_on = firmness.hangs_on
    if hangs_on is None:
        yield from wrapped(_("It hangs on no single answer."))
        return
    question = hangs_on.question
    told = answer_said(question, answer_of(diagnosis, question), diagnosis.case.date)
    most = _('The answer it hangs on most: "{question}" ({answer}).')
    if hangs_on.first != diagnosis.ranking.first.id:
        other = cause_said(diagnosis.ranking.of(hangs_on.first).name)
        without = _("Without it {cause} would come first.").format(cause=other)
    else:
        without = _("Without it the lead would be {lead} dB instead of {now} dB.").format(
            lead=numeral(hangs_on.lead_db, "g"), now=numeral(firmness.lead_db, "g")
        )
    yield from wrapped(f"{most.format(question=question.text, answer=told)} {without}")


def _change(diagnosis: Diagnosis, change: WhatWouldChange) -> Iterator[str]:
    if not change.found:
        text = _("No {answers} of the {count} given would, had they been others, put another cause first.")
        yield from wrapped(text.format(answers=_answers(change.searched), count=change.answers))
        if change.cut_off:
            yield from wrapped(_("Among sets of three the most promising were tried, not all; none did."))
        return
    text = ngettext(
        "What would change it: {answers} of the {count} given (one way found).",
        "What would change it: {answers} of the {count} given ({ways} ways found).",
        change.count,
    )
    yield from wrapped(text.format(answers=_answers(change.size), count=change.answers, ways=change.count))
    if change.cut_off:
        yield from wrapped(_("Among sets of three the most promising were tried, not all."))
    for found in change.found[:SETS_SHOWN]:
        other = cause_said(diagnosis.ranking.of(found.after.first).name)
        answers = and_listed(_changed(found, diagnosis.case.date))
        yield from hung(
            "- ", _("If {answers}, {cause} would come first.").format(answers=answers, cause=other)
        )


def _answers(count: int) -> str:
    return {1: _("one answer"), 2: _("two answers"), 3: _("three answers")}[count]


def _several(several: Several) -> Iterator[str]:
    if len(several.probable) > 1:
        yield from wrapped(_("More than one cause is likely. What only one of them explains:"))
        for each in several.probable:
            text = _("{cause} ({percent}): {signs}")
            said = {"cause": each.cause.name, "percent": percent(each.cause.probability)}
            yield from hung("- ", text.format(**said, signs=_said(each.alone)))
    if several.unexplained:
        yield from wrapped(_("Not explained by any likely cause (each speaks for an unlikely one alone):"))
        yield from bullet_list(sign.text for sign in several.unexplained)
    if several.silent:
        yield from wrapped(_("Told, but no rule made anything of it:"))
        yield from bullet_list(sign.text for sign in several.silent)


def _said(signs: Sequence[Sign]) -> str:
    """Return signs in words: findings, which say more, and answers only where there is no finding."""
    findings = [sign.text for sign in signs if sign.kind == "finding"]
    return "; ".join(findings or [sign.text for sign in signs]) or _(
        "nothing that another does not explain too"
    )
