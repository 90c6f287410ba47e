"""The collection as plain text: plants at a glance, what stands out, what was learnt, what came of a plan."""

import math
from collections.abc import Iterable

from diagnose.collection.followup import Comparison
from diagnose.collection.learning import Learned
from diagnose.collection.overview import Overview
from diagnose.collection.shared import Shared
from diagnose.collection.standout import Standout
from diagnose.collection.strengths import LEAST_CASES, Suggestion
from diagnose.report.text import wrapped
from diagnose.report.words import decibans, percent

_RULES_SHOWN = 8


def overview_text(rows: Iterable[Overview]) -> str:
    """Return one line a plant under a header; 79 columns where names allow."""
    rows = tuple(rows)
    if not rows:
        return "No plants."
    lines = [f"{'plant':<20} {'place':<15} {'leaves':>6} {'change':>6}  {'losses':<15} {'counted':>7}  due"]
    lines += [_row(row) for row in rows]
    due = sum(bool(row.due) for row in rows)
    leaves = sum(row.leaves or 0 for row in rows)
    lines.append(f"{len(rows)} {_plural('plant', len(rows))}, {leaves} leaves, {due} with something due.")
    return "\n".join(lines)


def standout_text(found: Standout) -> str:
    """Return whose losses rose beyond chance and what those plants share."""
    if not found.rising and not found.shared:
        return "\n".join(wrapped(standout_head(found)))
    lines = [*wrapped(standout_head(found)), ""]
    for one in found.rising:
        row = one.row
        lines.append(
            f"  {_cut(row.plant.name, 22):<22} {_cut(row.plant.place, 16):<16} {_rate(row):<26} p {one.p_adjusted:.2g}"
        )
    lines += [
        "",
        "What plants share that lose more than before:"
        if found.shared
        else "They share nothing beyond chance.",
    ]
    for shared in found.shared:
        lines += [f"  {line}" for line in wrapped(shared_said(shared), width=75)]
    return "\n".join(lines)


def standout_head(found: Standout) -> str:
    """Return in one sentence how many plants stand out."""
    tested = len(found.tested)
    if not found.rising and not found.shared:
        return f"No plant loses more leaves than before beyond what chance allows ({tested} could be tested)."
    return (
        f"Losses rose on {len(found.rising)} of {tested} plants that could be tested, beyond chance "
        f"(at most {percent(found.share_of_false)} of those named are expected to be there by chance)."
    )


def shared_said(shared: Shared) -> str:
    """Return a shared trait as a sentence."""
    names = " = ".join(shared.names)
    return (
        f"{names}: {shared.raised_holders} of {shared.holders} such plants lose more than before, against "
        f"{shared.raised - shared.raised_holders} of the {shared.tested - shared.holders} others "
        f"(p {shared.p_adjusted:.2g} after correction)."
    )


def learned_text(learned: Learned) -> str:
    """Return how good the rankings were and what the rules gave."""
    if not learned.cases:
        return "\n".join(
            wrapped("No settled case with a ranking yet; 'diagnose settle PLANT CAUSE' settles one.")
        )
    figures = learned.calibration
    lines = wrapped(
        f"{learned.cases} settled cases. The first cause was right in {learned.first_right} "
        f"({percent(learned.first_right / learned.cases)}; 95 % interval {percent(learned.first_low)} to "
        f"{percent(learned.first_high)}), among the first three in {learned.near_first}. "
        f"It was said to be {percent(learned.said_of_first)} probable on average."
    )
    if figures:
        parts = figures.murphy
        lines += wrapped(
            f"Brier score {figures.brier:.3f} (0 is perfect; saying the same for every cause scores "
            f"{parts.uncertainty:.3f}): reliability {parts.reliability:.3f}, resolution {parts.resolution:.3f}."
        )
    lines += ["", "  said        forecasts  mean said  came true (95 % interval)"]
    for one in learned.reliability:
        b = one.bin
        odd = "" if one.agrees else ("  said too high" if b.stated > b.came_true else "  said too low")
        lines.append(
            f"  {b.low:>4.0%} to {b.high:>4.0%} {b.count:>8} {b.stated:>10.1%}  {b.came_true:>6.1%} "
            f"({one.low:.1%} to {one.high:.1%}){odd}"
        )
    if learned.wrong:
        lines += ["", "Said first, turned out to be:"]
        lines += [f"  {n:>4}  {said} -> {true}" for said, true, n in learned.wrong[:_RULES_SHOWN]]
    helped = [rule for rule in learned.rules if rule.net_db > 0][:_RULES_SHOWN]
    misled = [rule for rule in reversed(learned.rules) if rule.net_db < 0][:_RULES_SHOWN]
    for title, rules in (("Rules that helped most", helped), ("Rules that misled most", misled)):
        if rules:
            lines += ["", f"{title} (decibans given to the truth, cases for and against it):"]
            lines += [f"  {decibans(r.net_db):>10}  {r.helped:>4} {r.misled:>4}  {r.rule}" for r in rules]
    return "\n".join([*lines, "", *_suggestions(learned.suggestions)])


def _suggestions(found: tuple[Suggestion, ...]) -> list[str]:
    if not found:
        text = (
            f"No strength is suggested: a house rule needs {LEAST_CASES} settled cases with its cause and "
            f"{LEAST_CASES} with another in which it could be judged."
        )
        return wrapped(text)
    lines = ["Strengths of house rules by these cases (nothing is changed by itself):"]
    for one in found:
        now = f"{one.strength}, {one.speaks} ({decibans(one.now)})"
        verdict = (
            "the present strength agrees" if one.agrees else f"suggested: {one.word or 'none of the words'}"
        )
        lines += wrapped(
            f"{one.rule}: now {now}; cases say {one.decibans:+.1f} dB ({one.low:+.1f} to {one.high:+.1f}), it fired "
            f"in {one.fired_with} of {one.known_with} with {one.cause} and in {one.fired_without} of "
            f"{one.known_without} without; {verdict}."
        )
    return lines


def comparison_text(found: Comparison, names: dict[str, str]) -> str:
    """Return what changed since the plan; `names` are the causes' names."""
    then = names.get(found.first_then, found.first_then)
    lines = []
    if found.ratio is None:
        lines += wrapped("Too few counts to compare losses before and since.")
    else:
        high = f"{found.ratio.high:.2g}" if math.isfinite(found.ratio.high) else "any number"
        ratio = f"{found.ratio.ratio:.2g}" if math.isfinite(found.ratio.ratio) else "many"
        said = "fewer" if found.ratio.ratio < 1 else "more"
        sure = f"{said} beyond chance" if found.ratio.p <= 0.05 else "no difference beyond chance"
        lines += wrapped(
            f"Lost since: {found.lost_since} in {found.days_since} days; before: {found.lost_before} in "
            f"{found.days_before} days. Per standing leaf {ratio} times as many "
            f"({found.ratio.low:.2g} to {high}): {sure}."
        )
    order = (
        " and still first"
        if found.still_first
        else f"; first is now {names.get(found.first_now, found.first_now)}"
    )
    lines += wrapped(
        f"{then} was {percent(found.probability_then)}, with the new counts it is "
        f"{percent(found.probability_now)}{order}."
    )
    return "\n".join(lines)


def _row(row: Overview) -> str:
    change = "" if row.change is None else f"{row.change:+d}"
    counted = "never" if row.days_since_count is None else f"{row.days_since_count} d"
    losses = f"{row.losses} {_times(row)}" if row.losses in ("rising", "falling") else row.losses
    leaves = "" if row.leaves is None else str(row.leaves)
    case = " (case open)" if row.case_open else ""
    return (
        f"{_cut(row.plant.name, 20):<20} {_cut(row.plant.place, 15):<15} {leaves:>6} {change:>6}  "
        f"{losses:<15} {counted:>7}  {', '.join(row.due)}{case}"
    ).rstrip()


def _times(row: Overview) -> str:
    return "from none" if row.ratio is None or math.isinf(row.ratio) else f"x{row.ratio:.2g}"


def _rate(row: Overview) -> str:
    if row.lost_per_30d is None or row.lost_per_30d_before is None:
        return ""
    return f"{row.lost_per_30d:.1f} in 30 d, {row.lost_per_30d_before:.1f} before"


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"


def _plural(word: str, count: int) -> str:
    return word if count == 1 else f"{word}s"
