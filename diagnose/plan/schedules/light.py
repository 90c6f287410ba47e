"""Light: what each change would bring, and going brighter or darker in small steps."""

from collections.abc import Iterator

from diagnose.measures.light import MONTHS, Range
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

_MODEL = "sun, sky and window computed: see the light measure"


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield what light the case can have and how to go there."""
    light = ground.light
    if light is not None and light.alternatives:
        yield _choices(light)
    if (step := ground.first("move_closer_in_steps")) is not None and light is not None:
        yield from _nearer(light, step)
    if (step := ground.first("lengthen_lamp_hours")) is not None:
        yield from _longer(ground, step)
    if (step := ground.first("add_lamp")) is not None and light is not None and light.need is not None:
        yield from _lamp(light, light.need, step)
    if (step := ground.first("step_down_light")) is not None:
        yield _down(step)


def _choices(light: Light) -> Schedule:
    month = MONTHS[light.situation.month]
    rows = [Row(None, f"as it is now: {dli(light.now)}{_enough(light.now, light.need)}")]
    for other in light.alternatives:
        if other.this_month.expected >= light.now.expected * _WORTH_IT:
            dark = f"; in the darkest month {amount(other.darkest)[0]}" if other.darkest else ""
            rows.append(
                Row(
                    None,
                    f"{other.label}: {dli(other.this_month)}{_enough(other.this_month, light.need)}{dark}",
                )
            )
    need = light.need
    note = (
        f"It lives on {need.least_dli_mol_m2_d:g} and grows well from {need.good_dli_mol_m2_d:g} on."
        if need
        else ""
    )
    if light.window_is_too_weak:
        note += f" No place at this window gives what it lives on in {month}, so a lamp goes before a move."
    origin = (_MODEL, *(listed(need.origin) if need else ()))
    return Schedule(
        "light_choices", f"What each change would bring in light in {month}", tuple(rows), origin, note
    )


def _enough(light: Range, need: LightNeed | None) -> str:
    if need is None:
        return ""
    if light.expected < need.least_dli_mol_m2_d:
        return ", less than it lives on"
    return ", enough to live on" if light.expected < need.good_dli_mol_m2_d else ", enough to grow well"


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
                f"{distance * 100:.0f} cm from the glass: about {dli(there)}{_enough(there, light.need)}",
            )
        )
        date += days(1)
        before = there
    if not rows:
        return
    title = f"From {opening.distance_m * 100:.0f} cm to the window in steps"
    note = "Stop where the light is enough, or where leaves pale, curl or burn. Out of midday summer sun."
    yield Schedule("nearer", title, tuple(rows), (_MODEL, "A-25", "common practice"), note)


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
        brings = f": {plain_number(dli_from_ppfd(ppfd, hours))} mol/m²/d from the lamp" if ppfd else ""
        rows.append(Row(date, f"{plain_number(hours)} hours a day{brings}"))
        date += days(_LAMP_STEP_D)
    yield Schedule("lamp_hours", "The lamp longer by steps", tuple(rows), ("L-11", "common practice"))


def _lamp(light: Light, need: LightNeed, step: Step) -> Iterator[Schedule]:
    """Reckoned for the darkest month, for a lamp has to carry the plant through it."""
    lacking = need.good_dli_mol_m2_d - light.darkest.expected
    if lacking <= 0:
        return
    ppfd = lacking / dli_from_ppfd(1.0, _LAMP_H)
    rows = (
        Row(
            step.date,
            f"{ppfd / 2:.0f} µmol/m²/s at the leaf for {_LAMP_H:g} hours a day: half power, or further off",
        ),
        Row(step.date + days(_GENTLE_D), f"{ppfd:.0f} µmol/m²/s at the leaf for {_LAMP_H:g} hours a day"),
    )
    month = "in the darkest month" if light.year else f"in {MONTHS[light.situation.month]}"
    note = (
        f"It grows well from {need.good_dli_mol_m2_d:g} mol/m²/d on; {plain_number(lacking)} of that are lacking "
        f"{month}, and {ppfd:.0f} µmol/m²/s for {_LAMP_H:g} hours bring them."
    )
    yield Schedule("lamp", "The lamp it needs", rows, ("L-11", *listed(need.origin), "common practice"), note)


def _down(step: Step) -> Schedule:
    each = _DOWN_WEEKS / _DOWN_STEPS
    rows = [Row(step.date, "the brightest spot you have, out of midday sun")]
    for number in range(1, _DOWN_STEPS + 1):
        share = (
            "in its final place"
            if number == _DOWN_STEPS
            else f"{percentage(number / _DOWN_STEPS)} of the way to its final place"
        )
        rows.append(Row(step.date + days(7 * each * number), share))
    return Schedule(
        "step_down", "Down to less light in eight weeks", tuple(rows), ("L-64", "common practice")
    )
