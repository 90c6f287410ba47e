"""Since when leaves fall faster, and what had happened just before.

Two questions share the 5 % of false alarms: did the loss rate per leaf rise at any date at all, and did more
leaves fall in the six weeks after a dated event than in the rest of the time? The second looks at few dates
and so finds what the first cannot, among them a short burst that is over.

Rates are per standing leaf: to lose one leaf a month is worse with two leaves left than with ten. But losses
thin out the leaves and so seem to raise the rate: at a p of 5 % simulated steady plants give 9 % false alarms
(tests/simulator). The first question's level is therefore set so that both together give about 5 %.
"""

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.case import EVENT_KINDS, Event
from diagnose.language import _, marked, numeral
from diagnose.measures.leaves.change import rate_change
from diagnose.measures.leaves.exact import ALPHA, binomial_at_least
from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.measure import Declaration, Given, Measure
from diagnose.measures.places import locate
from diagnose.measures.season import day_length_h

LATEST_EFFECT_D = 60  # an event is held to act on leaves for two months (common practice, no source)
_SIX_WEEKS_D = 42  # most of what a shock costs has fallen by then (common practice, no source)
_LEVEL_ALONE, _LEVEL_BESIDE_EVENTS = 0.02, 0.0125  # measured: 4 % false alarms each, see above
_SHORTER_H = 1.0  # days this much shorter than six weeks before: autumn (common practice, no source)
_FROM = ("leaf_history", "leaves", "events", "date", *(f"days_since_{kind}" for kind in EVENT_KINDS[:-1]))

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "loss_change_days_ago",
        marked("days since the loss rate per standing leaf rose, where it surely did"),
        "Poisson likelihood, one change; p exact for the largest ratio over all dates, given the number lost",
        "d",
        least=0,
        most=20000,
        inputs=_FROM,
    ),
    Declaration(
        "loss_change_after",
        marked("what came in the two months before the rise of the loss rate"),
        "nearest dated event; else days shorter by an hour in six weeks (FAO-56 daylight hours, L-08)",
        words=(*EVENT_KINDS, "season", "none"),
        inputs=(*_FROM, "place"),
    ),
)


@dataclass(frozen=True, slots=True)
class _Rise:
    on: dt.date
    earliest: dt.date
    latest: dt.date
    remark: str


def measure(given: Given, history: History) -> Iterator[Measure]:
    """Yield when the loss rate rose and after what, if the rise is beyond chance."""
    stretches = tuple(s for s in history.stretches if s.lost is not None and s.leaf_days)
    events = _events(given)
    tested = [e for e in events if _after(stretches, e)]
    event: Event | None
    rise = _rise_at_any_date(stretches, _LEVEL_BESIDE_EVENTS if tested else _LEVEL_ALONE)
    if rise is not None:
        event = _event_before(events, rise)
    else:
        event, rise = _rise_after_event(stretches, tested, ALPHA / 2)
    if rise is None:
        return
    ago = given.case.days_since
    yield Measure(
        "loss_change_days_ago",
        ago(rise.on),
        (history.source,) if event is None else (history.source, "events"),
        ago(rise.latest),
        ago(rise.earliest),
        remark=rise.remark,
    )
    spot = locate(given.case.place) if event is None else None
    if event is not None:
        yield Measure("loss_change_after", event.kind, (history.source, "events"), remark=str(event.date))
    elif spot is not None and days_get_shorter(rise.on, spot.latitude):
        remark = _("days were getting shorter")
        yield Measure("loss_change_after", "season", (history.source, "place"), remark=remark)
    else:
        remark = _("no dated event in the two months before")
        yield Measure("loss_change_after", "none", (history.source,), remark=remark)


def days_get_shorter(date: dt.date, latitude: float) -> bool:
    """Return whether the day is shorter than six weeks before by an hour or more."""
    day = date.timetuple().tm_yday
    return day_length_h(latitude, day - _SIX_WEEKS_D) - day_length_h(latitude, day) >= _SHORTER_H


def _rise_at_any_date(stretches: tuple[Stretch, ...], level: float) -> _Rise | None:
    found = rate_change([s.lost or 0 for s in stretches], [s.leaf_days for s in stretches], rises_only=True)
    if found is None or found.p > level:
        return None
    times = found.rate_after / found.rate_before if found.rate_before else math.inf
    remark = (
        _("{times} times the rate before; p = {p}")
        if math.isfinite(times)
        else _("none were lost before; p = {p}")
    )
    return _Rise(
        on=stretches[found.index].end,
        # The rise lies somewhere between two counts, so the limits reach to the counts on either side.
        earliest=stretches[found.earliest].start,
        latest=stretches[found.latest + 1].end,
        remark=remark.format(times=numeral(times, ".2g"), p=numeral(found.p, ".2g")),
    )


def _rise_after_event(
    stretches: tuple[Stretch, ...], events: list[Event], level: float
) -> tuple[Event, _Rise] | tuple[None, None]:
    """Return the event after which most clearly more leaves fell, allowing for how many were tried."""
    total, span = sum(s.lost or 0 for s in stretches), sum(s.leaf_days for s in stretches)
    best: tuple[Event, _Rise] | tuple[None, None] = None, None
    for event in events:
        after = _after(stretches, event)
        lost, share = sum(s.lost or 0 for s in after), sum(s.leaf_days for s in after) / span
        p = binomial_at_least(lost, total, share) * len(events)
        if p <= level and share < 1:
            remark = _("{lost} of all {total} lost in the six weeks after; p = {p}").format(
                lost=lost, total=total, p=numeral(p, ".2g")
            )
            best = event, _Rise(event.date, event.date, after[-1].end, remark)
            level = p
    return best


def _after(stretches: tuple[Stretch, ...], event: Event) -> tuple[Stretch, ...]:
    return tuple(s for s in stretches if 0 <= -s.middle_days_before(event.date) <= _SIX_WEEKS_D)


def _events(given: Given) -> list[Event]:
    """Return the dated events up to the case's date, those told as answers included, each once."""
    date = given.case.date
    events: dict[tuple[str, dt.date], Event] = {
        (event.kind, event.date): event for event in given.case.events if event.date <= date
    }
    for kind in EVENT_KINDS:
        days = given.number(f"days_since_{kind}")
        if days is not None and 0 <= days < (date - dt.date.min).days:
            on = date - dt.timedelta(days=round(days))
            events.setdefault((kind, on), Event.model_validate({"date": on, "kind": kind}))
    return sorted(events.values(), key=lambda event: (event.date, event.kind))


def _event_before(events: list[Event], rise: _Rise) -> Event | None:
    """Return the last event before the rise, else the first one within its limits."""
    near = [e for e in events if (rise.earliest - e.date).days <= LATEST_EFFECT_D and e.date <= rise.latest]
    return min(near, key=lambda e: (e.date > rise.on, abs((e.date - rise.on).days), e.kind), default=None)
