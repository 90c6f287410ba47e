"""Air: humidity by small steps, the cold of the glass, and taking a cover off by steps."""

from collections.abc import Iterator

from diagnose.language import _, ngettext
from diagnose.plan.ground import Ground, days
from diagnose.plan.records import Row, Schedule, Step
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.vocabulary import plain_number

_A_WEEK_PERCENT = 10  # at most so many points of humidity more in a week: common practice, no source
_ROOM_MOST_PERCENT = 60.0  # above this homes grow mould
_FROM_GLASS_CM = 20  # at least 20 cm from cold glass
_COVER_D, _COVER_STEP_D = 14, 2  # a cover for two weeks, opened every second day: common practice, no source


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield the parts about air for the steps that are in the plan."""
    if (step := ground.first("raise_humidity")) is not None:
        yield from _humidity(ground, step)
    if (step := ground.first("move_from_glass")) is not None:
        yield from _glass(ground, step)
    if (step := ground.first("tent_new_arrival")) is not None:
        yield _cover(step)


def _humidity(ground: Ground, step: Step) -> Iterator[Schedule]:
    now, need = ground.number("humidity_percent"), ground.given.needs.humidity
    if now is None or need is None:
        return
    goal = min(need.good_percent, _ROOM_MOST_PERCENT)
    rows, date, most = [], step.date, now
    while most < goal:
        most = min(goal, most + _A_WEEK_PERCENT)
        rows.append(
            Row(date, _("in this week no higher than {percent} %").format(percent=plain_number(most)))
        )
        date += days(7)
    if rows:
        note = _("Now {percent} %. Wet panes or a musty smell: less again, and more air.").format(
            percent=plain_number(now)
        )
        origin = (*listed(need.origin), "A-13", "common practice")
        yield Schedule(
            "humidity",
            _("Damper air, up to {percent} %").format(percent=plain_number(goal)),
            tuple(rows),
            tuple(dict.fromkeys(origin)),
            note,
        )


def _glass(ground: Ground, step: Step) -> Iterator[Schedule]:
    glass, outdoors = ground.given.before.get("glass_temp_c"), ground.number("outdoor_low_c")
    if glass is None or glass.low is None or glass.high is None or outdoors is None:
        return
    cold = _(
        "with {outdoors} °C outdoors the pane's inner face gets down to about {glass} °C ({low} to {high})"
    ).format(
        outdoors=plain_number(outdoors),
        glass=plain_number(float(glass.value)),
        low=plain_number(glass.low),
        high=plain_number(glass.high),
    )
    away = _("leaves and pot {cm} cm or more from it").format(cm=_FROM_GLASS_CM)
    rows = [Row(None, cold), Row(step.date, away)]
    origin = ("A-25", _("steady heat flow through the pane: see the glass measure"))
    yield Schedule("glass", _("How cold the glass gets"), tuple(rows), origin, glass.remark, glass.assumed)


def _cover(step: Step) -> Schedule:
    rows = [Row(step.date, _("under the cover, closed, out of sun"))]
    rows += [
        Row(
            step.date + days(day),
            ngettext(
                "open it {count} hand's width", "open it {count} hand's widths", day // _COVER_STEP_D
            ).format(count=day // _COVER_STEP_D),
        )
        for day in range(_COVER_STEP_D, _COVER_D, _COVER_STEP_D)
    ]
    rows.append(Row(step.date + days(_COVER_D), _("cover off")))
    return Schedule("cover", _("The cover off by steps"), tuple(rows), ("D-06", "common practice"))
