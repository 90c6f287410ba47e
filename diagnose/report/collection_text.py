"""The collection as plain text: plants at a glance, what stands out, what came of a plan."""

import math
from collections.abc import Iterable

from diagnose.collection.followup import Comparison
from diagnose.collection.overview import Overview
from diagnose.collection.shared import Shared
from diagnose.collection.standout import Standout
from diagnose.language import _, marked, ngettext, numeral, pgettext
from diagnose.measures.leaves.exact import RateRatio
from diagnose.report.text import wrapped
from diagnose.report.words import percent

_LOSSES = {
    "rising": marked("rising"),
    "steady": marked("steady"),
    "falling": marked("falling"),
    "too few": marked("too few"),
    "no recent count": marked("no recent count"),
}
_MILLION = 1_000_000
_DUE = {"count": marked("count"), "look again": marked("look again")}


def overview_text(rows: Iterable[Overview]) -> str:
    """Return one line a plant under a header; 79 columns where names allow."""
    rows = tuple(rows)
    if not rows:
        return _("No plants.")
    lines = [
        _line(
            pgettext("a column", "plant"),
            pgettext("a column", "place"),
            pgettext("a column", "leaves"),
            pgettext("a column", "change"),
            pgettext("a column", "losses"),
            pgettext("a column", "counted"),
            pgettext("a column", "due"),
        )
    ]
    lines += [_row(row) for row in rows]
    due = sum(bool(row.due) for row in rows)
    leaves = sum(row.leaves or 0 for row in rows)
    text = ngettext(
        "{count} plant, {leaves} leaves, {due} with something due.",
        "{count} plants, {leaves} leaves, {due} with something due.",
        len(rows),
    )
    lines.append(text.format(count=len(rows), leaves=leaves, due=due))
    return "\n".join(lines)


def standout_text(found: Standout) -> str:
    """Return whose losses rose beyond chance and what those plants share."""
    if not found.rising and not found.shared:
        return "\n".join(wrapped(standout_head(found)))
    lines = [*wrapped(standout_head(found)), ""]
    for one in found.rising:
        row = one.row
        named = f"  {_cut(row.plant.name, 22):<22} {_cut(row.plant.place, 16):<16}"
        lines += [
            f"{named} {_rate(row)}",
            f"    {_chance(one.p_adjusted)} (p {numeral(one.p_adjusted, '.2g')})",
        ]
    lines += [
        "",
        _("What plants share that lose more than before:")
        if found.shared
        else _("They share nothing beyond chance."),
    ]
    for shared in found.shared:
        lines += [f"  {line}" for line in wrapped(shared_said(shared), width=75)]
    return "\n".join(lines)


def standout_head(found: Standout) -> str:
    """Return in one sentence how many plants stand out."""
    tested = len(found.tested)
    if not found.rising and not found.shared:
        text = _(
            "No plant loses more leaves than before beyond what chance allows ({tested} could be tested)."
        )
        return text.format(tested=tested)
    text = ngettext(
        "Losses rose on {rising} of {tested} plant that could be tested, beyond chance "
        "(at most {percent} of those named are expected to be there by chance).",
        "Losses rose on {rising} of {tested} plants that could be tested, beyond chance "
        "(at most {percent} of those named are expected to be there by chance).",
        tested,
    )
    return text.format(rising=len(found.rising), tested=tested, percent=percent(found.share_of_false))


def shared_said(shared: Shared) -> str:
    """Return a shared trait as a sentence."""
    text = _(
        "{traits}: {raised} of {holders} such plants lose more than before, against {others_raised} of the {others} "
        "others. {chance} (p {p} after correction)."
    )
    return text.format(
        traits=" = ".join(shared.names),
        raised=shared.raised_holders,
        holders=shared.holders,
        others_raised=shared.raised - shared.raised_holders,
        others=shared.tested - shared.holders,
        chance=_chance(shared.p_adjusted),
        p=numeral(shared.p_adjusted, ".2g"),
    )


def _chance(p: float) -> str:
    """Say once in how many times something comes by chance, to one digit and down to once in a million."""
    if p < 1 / _MILLION:
        text = _("Fewer than 1 in {count} findings as clear as this comes by chance")
        return text.format(count=numeral(_MILLION, ","))
    times = round(1 / p, -math.floor(math.log10(1 / p)))
    return _("About 1 in {count} findings as clear as this comes by chance").format(
        count=numeral(times, ",.0f")
    )


def comparison_text(found: Comparison, names: dict[str, str]) -> str:
    """Return what changed since the plan; `names` are the causes' names."""
    then = names.get(found.first_then, found.first_then)
    lines = []
    if found.ratio is None:
        lines += wrapped(_("Too few counts to compare losses before and since."))
    else:
        lines += wrapped(_losses_compared(found, found.ratio))
    text = (
        _("{cause} was {then}, with the new counts it is {now} and still first.")
        if found.still_first
        else _("{cause} was {then}, with the new counts it is {now}; first is now {first}.")
    )
    lines += wrapped(
        text.format(
            cause=then,
            then=percent(found.probability_then),
            now=percent(found.probability_now),
            first=names.get(found.first_now, found.first_now),
        )
    )
    return "\n".join(lines)


def _losses_compared(found: Comparison, ratio: RateRatio) -> str:
    if ratio.p > 0.05:
        sure = _("no difference beyond chance")
    else:
        sure = _("fewer beyond chance") if ratio.ratio < 1 else _("more beyond chance")
    text = _(
        "Lost since: {since} in {days_since} days; before: {before} in {days_before} days. Per standing leaf {times} "
        "times as many ({low} to {high}): {sure}."
    )
    return text.format(
        since=found.lost_since,
        days_since=found.days_since,
        before=found.lost_before,
        days_before=found.days_before,
        times=numeral(ratio.ratio, ".2g") if math.isfinite(ratio.ratio) else _("many"),
        low=numeral(ratio.low, ".2g"),
        high=numeral(ratio.high, ".2g") if math.isfinite(ratio.high) else _("any number"),
        sure=sure,
    )


def _row(row: Overview) -> str:
    change = "" if row.change is None else f"{row.change:+d}"
    counted = _("never") if row.days_since_count is None else _("{days} d").format(days=row.days_since_count)
    losses = _(_LOSSES[row.losses])
    losses = f"{losses} {_times(row)}" if row.losses in ("rising", "falling") else losses
    leaves = "" if row.leaves is None else str(row.leaves)
    due = ", ".join(_(_DUE[one]) for one in row.due)
    due = _("{due} (case open)").format(due=due).strip() if row.case_open else due
    return _line(row.plant.name, row.plant.place, leaves, change, losses, counted, due)


def _line(*cells: str) -> str:
    plant, place, leaves, change, losses, counted, due = cells
    told = f"{_cut(plant, 20):<20} {_cut(place, 15):<15} {leaves:>6} {change:>6}  {losses:<15} {counted:>7}  {due}"
    return told.rstrip()


def _times(row: Overview) -> str:
    return _("from none") if row.ratio is None or math.isinf(row.ratio) else f"x{numeral(row.ratio, '.2g')}"


def _rate(row: Overview) -> str:
    if row.lost_per_30d is None or row.lost_per_30d_before is None:
        return ""
    text = _("{now} in 30 d, {before} before")
    return text.format(now=numeral(row.lost_per_30d, ".1f"), before=numeral(row.lost_per_30d_before, ".1f"))


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"
