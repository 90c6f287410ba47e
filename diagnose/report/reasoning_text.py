"""Reasons as plain text: why, why not, and why this cause over that."""

from collections.abc import Iterator, Sequence

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, marked, ngettext, numeral
from diagnose.ranking import Line
from diagnose.reasoning.chain import Step
from diagnose.reasoning.versus import Row, Versus
from diagnose.reasoning.why import Reason
from diagnose.reasoning.why_not import Lift, WhyNot
from diagnose.report.text import bullet_list, hung, origin_said_in, rank_line, wrapped
from diagnose.report.words import cause_said, decibans, percent, with_house

DECIBANS = marked(
    "Weights are in decibans (dB). +10 dB make a cause's odds ten times as high, -10 dB ten times as low; "
    "3 dB about double or halve them."
)
_KINDS = {"prior": marked("prior"), "evidence": marked("evidence"), "discount": marked("discount")}
_BESIDE = " " * 11  # below the text that hangs beside a weight
LIFTS_SHOWN = 5
ROWS_SHOWN = 12


def why_text(diagnosis: Diagnosis, cause: str, reasons: Sequence[Reason]) -> str:
    """Return one cause's whole ledger, and under each line the chain down to the answers."""
    ranked = diagnosis.ranking.of(cause)
    page = diagnosis.base.causes[cause]
    rank = _("{cause}: rank {rank} of {count}")
    rank = rank.format(cause=ranked.name, rank=ranked.rank, count=len(diagnosis.ranking.causes))
    parts = [rank, rank_line(ranked), ""]
    parts += [
        *wrapped(page.what),
        *wrapped(_("How it looks: {text}").format(text=page.looks)),
        *wrapped(_("What settles it: {text}").format(text=page.settles)),
    ]
    parts += ["", *wrapped(_("What speaks for and against it. The lines add up to its score."))]
    parts += wrapped(_(DECIBANS))
    shown: set[Step] = set()
    for reason in reasons:
        parts += ["", *_ledger_line(diagnosis, reason)]
        for step in reason.steps:
            parts += _step_lines(step, "    ", shown)
    total = _("in all: {percent}").format(percent=percent(ranked.probability))
    return "\n".join([*parts, "", f"{decibans(ranked.score_db):>9}  {total}"])


def why_not_text(diagnosis: Diagnosis, found: WhyNot) -> str:
    """Return why a cause is not first: what speaks against it, and what could still lift it."""
    name, first = cause_said(found.ranked.name), diagnosis.ranking.first
    if found.ranked.rank == 1:
        lead = _("It is first, {gap} ahead of the next. How sure that is: {command}.")
        return "\n".join(wrapped(lead.format(gap=_gap(-found.gap_db), command="diagnose firm CASE")))
    parts = [*wrapped(_("Why {cause} is not first").format(cause=name)), ""]
    behind = _("It lies {gap} behind {cause}.")
    parts += wrapped(behind.format(gap=_gap(found.gap_db), cause=cause_said(first.name)))
    against = [reason.line for reason in found.against if reason.line.kind == "evidence"]
    head = _("Against it:") if against else _("Nothing that is known speaks against it; it lacks support.")
    parts += ["", *wrapped(head)]
    for line in against:
        parts += hung(f"{decibans(line.decibans):>9}  ", line.text)
    return "\n".join([*parts, "", *_still_open(found)])


def versus_text(diagnosis: Diagnosis, found: Versus) -> str:
    """Return two causes side by side, heaviest difference first, and what would tell them apart."""
    one, other = found.one, found.other
    which = _("{one}, or {other}?").format(one=one.name, other=cause_said(other.name))
    parts = [*wrapped(which), rank_line(one), rank_line(other), ""]
    lead = _("{cause} leads by {gap}.") if found.difference >= 0 else _("{cause} trails by {gap}.")
    parts += wrapped(lead.format(cause=one.name, gap=_gap(abs(found.difference))))
    parts += ["", _("What decides between them:") if found.deciding else _("Nothing decides between them.")]
    for row in found.deciding:
        parts += _row(row, one.name, other.name)
    rest = [row for row in found.rows if row not in found.deciding]
    if rest:
        parts += ["", _("The rest:")]
        for row in rest[:ROWS_SHOWN]:
            parts += _row(row, one.name, other.name)
        left = sum(row.difference for row in rest[ROWS_SHOWN:])
        if len(rest) > ROWS_SHOWN:
            count = len(rest) - ROWS_SHOWN
            lighter = ngettext("{count} lighter one", "{count} lighter ones together", count)
            parts += [f"{decibans(left):>9}  {lighter.format(count=count)}"]
    total = _("in all, + for {cause}").format(cause=cause_said(one.name))
    parts += ["", *hung(f"{decibans(found.difference):>9}  ", total)]
    parts += ["", _("What settles it:")]
    parts += bullet_list(f"{each.name}: {diagnosis.base.causes[each.id].settles}" for each in (one, other))
    if found.separating:
        parts += ["", _("Open questions that would tell them apart best:")]
        parts += bullet_list(
            f"{each.check.question.text} ({each.check.question.id})" for each in found.separating[:3]
        )
    return "\n".join([*parts, "", *wrapped(_(DECIBANS))])


def _step_lines(step: Step, indent: str, shown: set[Step]) -> list[str]:
    """Return a step of a chain and all below it, each level further in; what was shown before is only named."""
    if step.below and step in shown:
        return hung(f"{indent}- ", _("{text} (from what is told above)").format(text=step.text))
    shown.add(step)
    lines = hung(f"{indent}- ", step.text)
    for below in step.below:
        lines += _step_lines(below, indent + "  ", shown)
    return lines


def _ledger_line(diagnosis: Diagnosis, reason: Reason) -> list[str]:
    line = reason.line
    origin = "; ".join(origin_said_in(diagnosis.base, one) for one in line.origin)
    said = _("{text} ({percent} of all weight)").format(text=line.text, percent=percent(reason.share))
    kind = with_house(f"{_(_KINDS[line.kind])} {line.rule}", house=line.house)
    return [*hung(f"{decibans(line.decibans):>9}  ", said), *hung(_BESIDE, f"[{kind}; {origin}]")]


def _still_open(found: WhyNot) -> Iterator[str]:
    alone = [lift for lift in found.lifts if lift.passes]
    if alone:
        yield from wrapped(_("Not known yet, and enough alone to put it first:"))
        yield from _lifts(alone)
    elif found.together:
        text = _("No open question alone would put it first; these {count} together would:")
        yield from wrapped(text.format(count=len(found.together)))
        yield from _lifts(found.together)
    elif found.lifts:
        text = _(
            "Nothing still open could put it first: with every open question answered in its favour it would lie "
            "{gap} behind. What would help it most:"
        )
        yield from wrapped(text.format(gap=_gap(found.best_gap_db)))
        yield from _lifts(found.lifts[:LIFTS_SHOWN])
    else:
        yield from wrapped(_("No open question would speak for it."))


def _lifts(lifts: Sequence[Lift]) -> list[str]:
    text = _('{question} If the answer is "{answer}" ({percent} likely from what is known): {weight}')
    shown = bullet_list(
        text.format(
            question=lift.question.text,
            answer=lift.said,
            percent=percent(lift.chance),
            weight=decibans(lift.decibans),
        )
        for lift in lifts[:LIFTS_SHOWN]
    )
    more = len(lifts) - LIFTS_SHOWN
    return shown + (bullet_list([_("and {count} more").format(count=more)]) if more > 0 else [])


def _row(row: Row, one: str, other: str) -> Iterator[str]:
    start = f"{decibans(row.difference):>9}  "
    for name, lines in ((one, row.one), (other, row.other)):
        if lines:
            yield from hung(start, _side(lines, name))
            start = _BESIDE


def _side(lines: Sequence[Line], name: str) -> str:
    """Say what a row's lines for one cause come to, in the words of the heaviest."""
    total = sum(line.decibans for line in lines)
    told = [line for line in lines if line.kind != "discount"]
    side = _("{weight} for {cause}: {text}") if total >= 0 else _("{weight} against {cause}: {text}")
    said = side.format(weight=f"{numeral(abs(total), 'g')} dB", cause=cause_said(name), text=told[0].text)
    more = len(told) - 1
    if not more:
        return said
    return _("{said} (and {count} more on the same thing)").format(said=said, count=more)


def _gap(gap_db: float) -> str:
    """Say a difference of scores as odds, too: 10^(dB/10)."""
    odds = _times(10 ** (gap_db / 10))
    return _("{gap} dB (odds {odds} to 1)").format(gap=numeral(abs(gap_db), "g"), odds=odds)


def _times(times: float) -> str:
    for most, digits in ((3, 1), (100, 0)):
        if times < most:
            return numeral(round(times, digits), "g")
    return numeral(float(f"{times:.1g}"), ",.0f")
