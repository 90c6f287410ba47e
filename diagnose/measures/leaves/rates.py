"""How fast leaves open and fall: exact Poisson rates, recent against earlier, net change."""

import math
from collections.abc import Iterator

from diagnose.language import _, marked, ngettext, numeral
from diagnose.measures.leaves.exact import ALPHA, poisson_interval, rate_ratio
from diagnose.measures.leaves.history import History, Stretch, tally
from diagnose.measures.measure import Declaration, Given, Measure

RECENT_D = 90  # days that stand for "now" (common practice, no source: about one season)
_PER_30D = 30.0
_ASKED_BACK_D = 90  # the question leaves_before asks about three months ago
_THIN_D = 60  # below this a rate's interval is wide enough to say so (common practice, no source)
_FROM = ("leaf_history", "leaves", "date")
_GARWOOD = "exact Poisson interval, Garwood 1936 (S-05)"

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "new_leaves_per_30d",
        marked("leaves opening in 30 days, over the last 90"),
        _GARWOOD,
        "leaves",
        least=0,
        most=30000,
        inputs=_FROM,
    ),
    Declaration(
        "lost_leaves_per_30d",
        marked("leaves lost in 30 days, over the last 90"),
        _GARWOOD,
        "leaves",
        least=0,
        most=30000,
        inputs=_FROM,
    ),
    Declaration(
        "loss_trend",
        marked("losses per standing leaf in the last 90 days (or the later half, if shorter) against before"),
        "exact conditional test of two rates, central p; Fay 2010 (S-03, S-04)",
        words=("rising", "steady", "falling"),
        inputs=_FROM,
    ),
    Declaration(
        "loss_ratio",
        marked("losses per standing leaf and day, recent ÷ earlier"),
        "exact conditional interval; Fay 2010 (S-03, S-04)",
        least=0,
        inputs=_FROM,
    ),
    Declaration(
        "net_leaves_per_30d",
        marked("leaves gained (+) or lost (-) in 30 days, over the last 90"),
        "difference of counts; interval by Zou & Donner 2008 (from memory)",
        "leaves",
        least=-30000,
        most=30000,
        inputs=(*_FROM, "leaves_standing", "leaves_before"),
    ),
)


def measure(given: Given, history: History) -> Iterator[Measure]:
    """Yield the rates, the trend and the net change that the history allows."""
    if history.is_fresh(given.case.date):
        recent = history.since(RECENT_D, given.case.date) or history.stretches[-1:]
        for name, what in (("new_leaves_per_30d", "new"), ("lost_leaves_per_30d", "lost")):
            yield from _rate(name, what, recent, history.source)
        yield from _trend(history)
    yield from _net(given, history)


def _rate(name: str, what: str, stretches: tuple[Stretch, ...], source: str) -> Iterator[Measure]:
    count, days = tally(stretches, what)
    if not days:
        return
    low, high = poisson_interval(count)
    scale = _PER_30D / days
    yield Measure(name, count * scale, (source,), low * scale, high * scale, remark=thinness(days))


def _trend(history: History) -> Iterator[Measure]:
    earlier, recent = split_recent(tuple(s for s in history.stretches if s.lost is not None))
    lost_before, days_before = tally(earlier, "lost")
    lost_now, days_now = tally(recent, "lost")
    stood_before, stood_now = (sum(s.leaf_days for s in part) for part in (earlier, recent))
    if not stood_before or not stood_now:
        return
    found = rate_ratio(lost_now, stood_now, lost_before, stood_before)
    if found is None:
        return
    remark = _(
        "{lost_now} lost in the last {days_now} days against {lost_before} in the {days_before} before; p = {p}"
    ).format(
        lost_now=lost_now,
        days_now=days_now,
        lost_before=lost_before,
        days_before=days_before,
        p=numeral(found.p, ".2g"),
    )
    used = (history.source,)
    if found.p <= ALPHA:
        yield Measure("loss_trend", "rising" if found.ratio > 1 else "falling", used, remark=remark)
    elif could_show(lost_now + lost_before, stood_now / (stood_now + stood_before)):
        yield Measure("loss_trend", "steady", used, remark=remark)
    if math.isfinite(found.ratio):
        high = found.high if math.isfinite(found.high) else None
        yield Measure("loss_ratio", found.ratio, used, found.low, high, remark=remark)


def split_recent(stretches: tuple[Stretch, ...]) -> tuple[tuple[Stretch, ...], tuple[Stretch, ...]]:
    """Return the stretches as (earlier, recent), split by dates alone so that losses cannot sway the test."""
    if not stretches:
        return (), ()
    last = stretches[-1].end
    recent_d = min(RECENT_D, sum(s.days for s in stretches) / 2)
    recent = [s.middle_days_before(last) <= recent_d for s in stretches]
    first = recent.index(True) if True in recent else len(stretches) - 1
    return stretches[:first], stretches[first:]


def could_show(losses: int, share_recent: float) -> bool:
    """Return whether so many losses could have shown a rise and a fall at all, had all been on one side."""
    return 2 * max(share_recent**losses, (1 - share_recent) ** losses) <= ALPHA


def _net(given: Given, history: History) -> Iterator[Measure]:
    date = given.case.date
    recent = history.since(RECENT_D, date) if history.is_fresh(date) else ()
    both = tuple(s for s in recent if s.new is not None and s.lost is not None)
    if both:
        new, days = tally(both, "new")
        lost, _days = tally(both, "lost")
        low, high = difference_interval(new, lost)
        scale = _PER_30D / days
        yield Measure(
            "net_leaves_per_30d",
            (new - lost) * scale,
            (history.source,),
            low * scale,
            high * scale,
            remark=thinness(days),
        )
        return
    ends = [count for on, count in history.present if (date - on).days <= RECENT_D] if recent else []
    if len(ends) > 1:
        first, last = history.present[-len(ends)], history.present[-1]
        value = (last[1] - first[1]) * _PER_30D / (last[0] - first[0]).days
        remark = _("from the leaves present alone")
        yield Measure("net_leaves_per_30d", value, (history.source,), remark=remark)
        return
    standing, before = given.number("leaves_standing"), given.number("leaves_before")
    if standing is not None and before is not None:
        value = (standing - before) * _PER_30D / _ASKED_BACK_D
        remark = _("from the leaves standing now and three months ago")
        yield Measure("net_leaves_per_30d", value, ("leaves_standing", "leaves_before"), remark=remark)


def difference_interval(new: int, lost: int) -> tuple[float, float]:
    """Return 95 % limits of the difference of two Poisson means, from those of each (Zou & Donner 2008)."""
    new_low, new_high = poisson_interval(new)
    lost_low, lost_high = poisson_interval(lost)
    below = math.hypot(new - new_low, lost_high - lost)
    above = math.hypot(new_high - new, lost - lost_low)
    return new - lost - below, new - lost + above


def thinness(days: int) -> str:
    """Return a remark where the days are too few for a narrow interval, else nothing."""
    if days >= _THIN_D:
        return ""
    return ngettext(
        "{count} day of counts: interval wide", "{count} days of counts: interval wide", days
    ).format(count=days)
