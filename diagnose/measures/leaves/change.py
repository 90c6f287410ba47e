"""When the loss rate rose, and what had happened just before."""

import datetime as dt
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from diagnose.case import EVENT_KINDS, Event
from diagnose.measures.leaves.exact import ALPHA, poisson_terms
from diagnose.measures.leaves.history import History
from diagnose.measures.measure import Declaration, Given, Measure

LIKELIHOOD_DROP = 1.92  # half the 95 % point of chi-square with 1 degree of freedom
LATEST_EFFECT_D = 60  # an event is held to act on leaves for two months (common practice, no source)
_SURELY = 1e-6  # a bound on p below this needs no exact value
_EXACT_UP_TO = 2000  # with more losses than this p is the bound, which is too large rather than too small
_NEGLIGIBLE = 1e-18
_SHORTER_H = 1.0  # days this much shorter than six weeks before: autumn (common practice, no source)
_SIX_WEEKS = dt.timedelta(days=42)
_FROM = ("leaf_history", "leaves", "events", "place", "date")

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "loss_change_days_ago",
        "days since the loss rate rose, where it surely did",
        "Poisson likelihood, one change; p exact for the largest ratio over all dates, given the number lost",
        "d",
        least=0,
        most=20000,
        inputs=_FROM,
    ),
    Declaration(
        "loss_change_after",
        "what came in the two months before the rise of the loss rate",
        "nearest dated event; else days shorter by an hour in six weeks (FAO-56 daylight hours, L-08)",
        words=(*EVENT_KINDS, "season", "none"),
        inputs=_FROM,
    ),
)


@dataclass(frozen=True, slots=True)
class Change:
    """A change of rate after stretch number `index` (0 is after the first), and how sure it is.

    `earliest` and `latest` are the indices whose likelihood is close to the best one's.
    """

    index: int
    earliest: int
    latest: int
    rate_before: float
    rate_after: float
    p: float


def measure(given: Given, history: History) -> Iterator[Measure]:
    """Yield when the loss rate rose and after what, if the rise is beyond chance."""
    stretches = tuple(s for s in history.stretches if s.lost is not None)
    found = rate_change([s.lost or 0 for s in stretches], [s.days for s in stretches], rises_only=True)
    if found is None or found.p > ALPHA:
        return
    changed = stretches[found.index].end
    # The rise lies somewhere between two counts, so the limits reach to the counts on either side.
    earliest, latest = stretches[found.earliest].start, stretches[found.latest + 1].end
    ago = given.case.days_since
    before, after = 30 * found.rate_before, 30 * found.rate_after
    remark = f"{before:.2g} lost in 30 days before, {after:.2g} after; p = {found.p:.2g}"
    yield Measure(
        "loss_change_days_ago", ago(changed), (history.source,), ago(latest), ago(earliest), remark=remark
    )
    event = _event_before(_events(given), earliest, changed, latest)
    latitude = given.case.place.latitude
    word: str
    if event is not None:
        where, word, remark = "events", event.kind, f"{event.date}"
    elif latitude is not None and days_get_shorter(changed, latitude):
        where, word, remark = "place", "season", "days were getting shorter"
    else:
        where, word, remark = history.source, "none", "no dated event in the two months before"
    yield Measure("loss_change_after", word, tuple(dict.fromkeys((history.source, where))), remark=remark)


def rate_change(counts: Sequence[int], days: Sequence[int], *, rises_only: bool = False) -> Change | None:
    """Find the one change of a Poisson rate that fits best; None with fewer than two stretches or no count.

    The p-value is the exact probability, given the total, that a steady rate shows a likelihood ratio as
    large at any date: it allows for having looked at all of them.
    """
    total = sum(counts)
    if len(counts) < 2 or total == 0:
        return None
    ends, sums = list(accumulate(days)), list(accumulate(counts))
    span = ends[-1]

    def gain(before: int, end: int) -> float:
        """Return the log likelihood ratio of a change at this day with so many counted before it."""
        if rises_only and before * span >= total * end:
            return 0.0
        return _part(before, end) + _part(total - before, span - end) - _part(total, span)

    gains = [gain(before, end) for before, end in zip(sums[:-1], ends[:-1], strict=True)]
    best = max(gains)
    if best <= 0:
        return None
    index = gains.index(best)
    near = [i for i, value in enumerate(gains) if value >= best - LIKELIHOOD_DROP]
    # Chernoff: at one date, a steady rate gives a ratio this large with at most this chance on each side.
    p = math.exp(-best) * len(gains) * (1 if rises_only else 2)
    if p > _SURELY and total <= _EXACT_UP_TO:
        p = 1 - _stays_below(lambda at, seen: gain(seen, ends[at]) >= best - 1e-9, total, days)
    before, end = sums[index], ends[index]
    after = (total - before) / (span - end)
    return Change(index, near[0], near[-1], before / end, after, min(1.0, max(0.0, p)))


def _part(count: int, days: float) -> float:
    """Return the part of the Poisson log likelihood that depends on how counts fall to stretches of days."""
    return count * math.log(count / days) if count else 0.0


def days_get_shorter(date: dt.date, latitude: float) -> bool:
    """Return whether the day is shorter than six weeks before by an hour or more."""
    return _daylight_h(date - _SIX_WEEKS, latitude) - _daylight_h(date, latitude) >= _SHORTER_H


def _stays_below(too_far: Callable[[int, int], bool], total: int, days: Sequence[int]) -> float:
    """Return the chance that a steady rate's running count, given its total, is never too far off.

    The running count is followed from date to date as a sum of Poisson numbers, dropping what is too far, and
    the outcome is divided by the chance of the total itself.
    """
    span = sum(days)
    reached = {0: 1.0}
    for at, length in enumerate(days):
        first, terms = poisson_terms(total * length / span)
        onward: dict[int, float] = {}
        for seen, p in reached.items():
            for more, term in enumerate(terms, start=seen + first):
                if more > total:
                    break
                onward[more] = onward.get(more, 0.0) + p * term
        last = at == len(days) - 1
        reached = {s: p for s, p in onward.items() if p > _NEGLIGIBLE and (last or not too_far(at, s))}
    return reached.get(total, 0.0) / math.exp(total * math.log(total) - total - math.lgamma(total + 1))


def _daylight_h(date: dt.date, latitude: float) -> float:
    """Return the hours from sunrise to sunset (FAO-56 equations 24, 25 and 34; L-08)."""
    declination = 0.409 * math.sin(math.tau / 365 * date.timetuple().tm_yday - 1.39)
    cosine = -math.tan(math.radians(latitude)) * math.tan(declination)
    return 24 / math.pi * math.acos(max(-1.0, min(1.0, cosine)))


def _events(given: Given) -> list[Event]:
    """Return the dated events up to the case's date, those told as answers included."""
    date = given.case.date
    events = [event for event in given.case.events if event.date <= date]
    for kind in EVENT_KINDS:
        days = given.number(f"days_since_{kind}")
        if days is not None and 0 <= days <= (date - dt.date.min).days:
            events.append(Event(date=date - dt.timedelta(days=round(days)), kind=kind))
    return events


def _event_before(events: list[Event], earliest: dt.date, changed: dt.date, latest: dt.date) -> Event | None:
    """Return the last event before the change, else the first one within its limits."""
    near = [e for e in events if (earliest - e.date).days <= LATEST_EFFECT_D and e.date <= latest]
    return min(near, key=lambda e: (e.date > changed, abs((e.date - changed).days), e.kind), default=None)
