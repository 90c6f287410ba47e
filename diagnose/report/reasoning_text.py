"""Reasons as plain text: why, why not, and why this cause over that."""

from collections.abc import Iterator, Sequence

from diagnose.diagnosis import Diagnosis
from diagnose.ranking import Line
from diagnose.reasoning.chain import Step
from diagnose.reasoning.versus import Row, Versus
from diagnose.reasoning.why import Reason
from diagnose.reasoning.why_not import Lift, WhyNot
from diagnose.report.text import bullet_list, hung, origin_said_in, rank_line, wrapped
from diagnose.report.words import decibans, lower_first, percent

DECIBANS = (
    "Weights are in decibans (dB). +10 dB make a cause's odds ten times as high, -10 dB ten times as low; "
    "3 dB about double or halve them."
)
LIFTS_SHOWN = 5
ROWS_SHOWN = 12


def why_text(diagnosis: Diagnosis, cause: str, reasons: Sequence[Reason]) -> str:
    """Return one cause's whole ledger, and under each line the chain down to the answers."""
    ranked = diagnosis.ranking.of(cause)
    page = diagnosis.base.causes[cause]
    parts = [f"{ranked.name}: rank {ranked.rank} of {len(diagnosis.ranking.causes)}", rank_line(ranked), ""]
    parts += [
        *wrapped(page.what),
        *wrapped(f"How it looks: {page.looks}"),
        *wrapped(f"What settles it: {page.settles}"),
    ]
    parts += ["", "What speaks for and against it. The lines add up to its score.", *wrapped(DECIBANS)]
    shown: set[Step] = set()
    for reason in reasons:
        parts += ["", *_ledger_line(diagnosis, reason)]
        for step in reason.steps:
            parts += _step_lines(step, "    ", shown)
    return "\n".join([*parts, "", f"{decibans(ranked.score_db):>9}  in all: {percent(ranked.probability)}"])


def why_not_text(diagnosis: Diagnosis, found: WhyNot) -> str:
    """Return why a cause is not first: what speaks against it, and what could still lift it."""
    name, first = lower_first(found.ranked.name), diagnosis.ranking.first
    if found.ranked.rank == 1:
        lead = f"It is first, {_gap(-found.gap_db)} ahead of the next. How sure that is: diagnose firm CASE."
        return "\n".join(wrapped(lead))
    parts = [*wrapped(f"Why {name} is not first"), ""]
    parts += wrapped(f"It lies {_gap(found.gap_db)} behind {lower_first(first.name)}.")
    against = [reason.line for reason in found.against if reason.line.kind == "evidence"]
    parts += (
        ["", "Against it:"] if against else ["", "Nothing that is known speaks against it; it lacks support."]
    )
    for line in against:
        parts += hung(f"{decibans(line.decibans):>9}  ", line.text)
    return "\n".join([*parts, "", *_still_open(found)])


def versus_text(diagnosis: Diagnosis, found: Versus) -> str:
    """Return two causes side by side, heaviest difference first, and what would tell them apart."""
    one, other = found.one, found.other
    leads = "leads" if found.difference >= 0 else "trails"
    parts = [*wrapped(f"{one.name}, or {lower_first(other.name)}?"), rank_line(one), rank_line(other), ""]
    parts += wrapped(f"{one.name} {leads} by {_gap(abs(found.difference))}.")
    parts += ["", "What decides between them:" if found.deciding else "Nothing decides between them."]
    for row in found.deciding:
        parts += _row(row, one.name, other.name)
    rest = [row for row in found.rows if row not in found.deciding]
    if rest:
        parts += ["", "The rest:"]
        for row in rest[:ROWS_SHOWN]:
            parts += _row(row, one.name, other.name)
        left = sum(row.difference for row in rest[ROWS_SHOWN:])
        if len(rest) > ROWS_SHOWN:
            parts += [f"{decibans(left):>9}  {len(rest) - ROWS_SHOWN} lighter ones together"]
    parts += ["", f"{decibans(found.difference):>9}  in all, + for {lower_first(one.name)}"]
    parts += ["", "What settles it:"]
    parts += bullet_list(f"{each.name}: {diagnosis.base.causes[each.id].settles}" for each in (one, other))
    if found.separating:
        parts += ["", "Open questions that would tell them apart best:"]
        parts += bullet_list(
            f"{each.check.question.text} ({each.check.question.id})" for each in found.separating[:3]
        )
    return "\n".join([*parts, "", *wrapped(DECIBANS)])


def _step_lines(step: Step, indent: str, shown: set[Step]) -> list[str]:
    """Return a step of a chain and all below it, each level further in; what was shown before is only named."""
    if step.below and step in shown:
        return hung(f"{indent}- ", f"{step.text} (from what is told above)")
    shown.add(step)
    lines = hung(f"{indent}- ", step.text)
    for below in step.below:
        lines += _step_lines(below, indent + "  ", shown)
    return lines


def _ledger_line(diagnosis: Diagnosis, reason: Reason) -> list[str]:
    line = reason.line
    origin = "; ".join(origin_said_in(diagnosis.base, one) for one in line.origin)
    house = "house, " if line.house else ""
    return [
        *hung(f"{decibans(line.decibans):>9}  ", f"{line.text} ({percent(reason.share)} of all weight)"),
        *hung(" " * 11, f"[{house}{line.kind} {line.rule}; {origin}]"),
    ]


def _still_open(found: WhyNot) -> Iterator[str]:
    alone = [lift for lift in found.lifts if lift.passes]
    if alone:
        yield "Not known yet, and enough alone to put it first:"
        yield from _lifts(alone)
    elif found.together:
        yield from wrapped(
            f"No open question alone would put it first; these {len(found.together)} together would:"
        )
        yield from _lifts(found.together)
    elif found.lifts:
        yield from wrapped(
            "Nothing still open could put it first: with every open question answered in its favour it would lie "
            f"{_gap(found.best_gap_db)} behind. What would help it most:"
        )
        yield from _lifts(found.lifts[:LIFTS_SHOWN])
    else:
        yield "No open question would speak for it."


def _lifts(lifts: Sequence[Lift]) -> list[str]:
    shown = bullet_list(
        f'{lift.question.text} If the answer is "{lift.said}" ({percent(lift.chance)} likely from what is known): '
        f"{decibans(lift.decibans)}"
        for lift in lifts[:LIFTS_SHOWN]
    )
    more = len(lifts) - LIFTS_SHOWN
    return [*shown, f"- and {more} more"] if more > 0 else shown


def _row(row: Row, one: str, other: str) -> Iterator[str]:
    start = f"{decibans(row.difference):>9}  "
    for name, lines in ((one, row.one), (other, row.other)):
        if lines:
            yield from hung(start, _side(lines, name))
            start = " " * 11


def _side(lines: Sequence[Line], name: str) -> str:
    """Say what a row's lines for one cause come to, in the words of the heaviest."""
    total = sum(line.decibans for line in lines)
    told = [line for line in lines if line.kind != "discount"]
    way = "for" if total >= 0 else "against"
    more = f" (and {len(told) - 1} more on the same thing)" if len(told) > 1 else ""
    return f"{abs(total):g} dB {way} {lower_first(name)}: {told[0].text}{more}"


def _gap(gap_db: float) -> str:
    """Say a difference of scores as odds, too: 10^(dB/10)."""
    times = 10 ** (gap_db / 10)
    return f"{abs(gap_db):g} dB (odds {_times(times)} to 1)"


def _times(times: float) -> str:
    for most, digits in ((3, 1), (100, 0)):
        if times < most:
            return f"{times:.{digits}f}".removesuffix(".0")
    return f"{float(f'{times:.1g}'):,.0f}"
