"""Light: what each change would bring, and going brighter or darker in small steps."""

from collections.abc import Collection, Iterator

from diagnose.language import _, marked, month_said, numeral
from diagnose.measures.light import Alternative, Range
from diagnose.measures.light.convert import dli_from_ppfd
from diagnose.measures.light.what_if import BESIDE_GLASS_M
from diagnose.measures.measure import percentage
from diagnose.measures.needs import LightNeed
from diagnose.plan.ground import Ground, days
from diagnose.plan.light import Light, amount, dli
from diagnose.plan.records import Row, Schedule, Step
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.vocabulary import plain_number

_A_DAY_M, _NEAR_M, _A_DAY_NEAR_M = 1.0, 1.0, 0.25
"""About a metre a day, and 20-30 cm a day from a metre on: common practice, no source."""

_LAMP_STEP_H, _LAMP_STEP_D, _LAMP_HOURS = 1.0, 3, (12.0, 14.0)
"""An hour longer every three days, up to 12 and then 14 hours: common practice, no source."""

_LAMP_H = 12.0  # hours for which the lamp that is wanting is reckoned; common practice, no source
_GENTLE_D = 14  # half power or twice the distance for a fortnight; common practice, no source

_DOWN_WEEKS, _DOWN_STEPS = 8, 4
"""Eight weeks in the dimmer place by steps: Ficus under less and less light for eight weeks (L-64)."""

_WORTH_IT = 1.1  # a tenth more light is not worth a change; common practice, no source

_MODEL = marked("sun, sky and window computed: see the light measure")


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield what light the case can have and how to go there."""
    light = ground.light
    lamps = tuple(_lamp_lacking(ground, light)) if light is not None else ()
    if light is not None and light.alternatives:
        yield _choices(light, told={"lamp"} if lamps else set())
    if (step := ground.first("move_closer_in_steps")) is not None and light is not None:
        yield from _nearer(light, step)
    if (step := ground.first("lengthen_lamp_hours")) is not None:
        yield from _longer(ground, step)
    yield from lamps
    if (step := ground.first("step_down_light")) is not None:
        yield _down(step)


def _lamp_lacking(ground: Ground, light: Light) -> Iterator[Schedule]:
    if (step := ground.first("add_lamp")) is not None and light.need is not None:
        yield from _lamp(light, light.need, step)


def _choices(light: Light, *, told: Collection[str]) -> Schedule:
    """Return what each change would bring, those left out of which the plan tells on its own."""
    month = month_said(light.situation.month + 1)
    rows = [Row(None, _("as it is now: {light}").format(light=_judged(light.now, light.need)))]
    rows += [
        Row(None, _choice(other, light.need))
        for other in light.alternatives
        if other.id not in told and other.this_month.expected >= light.now.expected * _WORTH_IT
    ]
    need = light.need
    notes = []
    if need:
        notes.append(
            _("It lives on {least} and grows well from {good} on.").format(
                least=numeral(need.least_dli_mol_m2_d, "g"), good=numeral(need.good_dli_mol_m2_d, "g")
            )
        )
    if light.window_is_too_weak:
        notes.append(
            _(
                "No place at this window gives what it lives on in {month}, so a lamp goes before a move."
            ).format(month=month)
        )
    origin = (_(_MODEL), *(listed(need.origin) if need else ()))
    title = _("What each change would bring in light in {month}").format(month=month)
    return Schedule("light_choices", title, tuple(rows), origin, " ".join(notes))


def _choice(other: Alternative, need: LightNeed | None) -> str:
    light = _judged(other.this_month, need)
    if other.darkest is None:
        return f"{other.label}: {light}"
    return _("{change}: {light}; in the darkest month {dark}").format(
        change=other.label, light=light, dark=amount(other.darkest)[0]
    )


def _judged(light: Range, need: LightNeed | None) -> str:
    """Return a daily light integral with what it is enough for."""
    said = dli(light)
    if need is None:
        return said
    if light.expected < need.least_dli_mol_m2_d:
        return _("{light}, less than it lives on").format(light=said)
    if light.expected < need.good_dli_mol_m2_d:
        return _("{light}, enough to live on").format(light=said)
    return _("{light}, enough to grow well").format(light=said)


def _nearer(light: Light, step: Step) -> Iterator[Schedule]:
    opening = light.situation.opening
    if opening is None or opening.distance_m <= BESIDE_GLASS_M:
        return
    rows: list[Row] = []
    distance, date, before = (
        opening.distance_m,
        step.date,
        light.at_distance(opening.distance_m, step.date.month - 1),
    )
    while distance > BESIDE_GLASS_M:
        distance = round(max(BESIDE_GLASS_M, _next_m(distance)), 2)
        there = light.at_distance(distance, date.month - 1)
        if there is None or before is None or there.expected <= before.expected:
            break  # under a window low sun may reach a level leaf better from further off
        rows.append(
            Row(
                date,
                _("{cm} cm from the glass: about {light}").format(
                    cm=numeral(distance * 100, ".0f"), light=_judged(there, light.need)
                ),
            )
        )
        date += days(1)
        before = there
    if not rows:
        return
    title = _("From {cm} cm to the window in steps").format(cm=numeral(opening.distance_m * 100, ".0f"))
    note = _("Stop where the light is enough, or where leaves pale, curl or burn. Out of midday summer sun.")
    yield Schedule("nearer", title, tuple(rows), (_(_MODEL), "A-25", "common practice"), note)


def _next_m(distance: float) -> float:
    """Return the next day's distance: a metre nearer, but never past the last metre in one go."""
    if distance > _NEAR_M:
        return max(_NEAR_M, distance - _A_DAY_M)
    return distance - _A_DAY_NEAR_M


def _longer(ground: Ground, step: Step) -> Iterator[Schedule]:
    hours = ground.number("lamp_h_d")
    if hours is None or hours >= _LAMP_HOURS[1]:
        return
    goal = next(goal for goal in _LAMP_HOURS if hours < goal)
    ppfd = ground.number("lamp_ppfd_umol_m2_s")
    rows, date = [], step.date
    while hours < goal:
        hours = min(goal, hours + _LAMP_STEP_H)
        rows.append(Row(date, _lit(hours, ppfd)))
        date += days(_LAMP_STEP_D)
    yield Schedule("lamp_hours", _("The lamp longer by steps"), tuple(rows), ("L-11", "common practice"))


def _lit(hours: float, ppfd: float | None) -> str:
    if not ppfd:
        return _("{hours} hours a day").format(hours=plain_number(hours))
    return _("{hours} hours a day: {dli} mol/m²/d from the lamp").format(
        hours=plain_number(hours), dli=plain_number(dli_from_ppfd(ppfd, hours))
    )


def _lamp(light: Light, need: LightNeed, step: Step) -> Iterator[Schedule]:
    """Reckoned for the darkest month, for a lamp has to carry the plant through it."""
    lacking = need.good_dli_mol_m2_d - light.darkest.expected
    if lacking <= 0:
        return
    ppfd = lacking / dli_from_ppfd(1.0, _LAMP_H)
    hours, half, full = f"{_LAMP_H:g}", numeral(ppfd / 2, ".0f"), numeral(ppfd, ".0f")
    gentle = _("{ppfd} µmol/m²/s at the leaf for {hours} hours a day: half power, or further off")
    whole = _("{ppfd} µmol/m²/s at the leaf for {hours} hours a day")
    rows = (
        Row(step.date, gentle.format(ppfd=half, hours=hours)),
        Row(step.date + days(_GENTLE_D), whole.format(ppfd=full, hours=hours)),
    )
    note = (
        _(
            "It grows well from {good} mol/m²/d on; {lacking} of that are lacking in the darkest month, and {ppfd} "
            "µmol/m²/s for {hours} hours bring them."
        )
        if light.year
        else _(
            "It grows well from {good} mol/m²/d on; {lacking} of that are lacking in {month}, and {ppfd} "
            "µmol/m²/s for {hours} hours bring them."
        )
    ).format(
        good=numeral(need.good_dli_mol_m2_d, "g"),
        lacking=plain_number(lacking),
        month=month_said(light.situation.month + 1),
        ppfd=full,
        hours=hours,
    )
    origin = ("L-11", *listed(need.origin), "common practice")
    yield Schedule("lamp", _("The lamp it needs"), rows, origin, note)


def _down(step: Step) -> Schedule:
    each = _DOWN_WEEKS / _DOWN_STEPS
    rows = [Row(step.date, _("the brightest spot you have, out of midday sun"))]
    for number in range(1, _DOWN_STEPS + 1):
        share = (
            _("in its final place")
            if number == _DOWN_STEPS
            else _("{percent} of the way to its final place").format(percent=percentage(number / _DOWN_STEPS))
        )
        rows.append(Row(step.date + days(7 * each * number), share))
    title = _("Down to less light in eight weeks")
    return Schedule("step_down", title, tuple(rows), ("L-64", "common practice"))
