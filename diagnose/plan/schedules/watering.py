"""Water: how long the pot is expected to take to dry, and from which day to feel it."""

from collections.abc import Iterator

from diagnose.measures.measure import Measure
from diagnose.plan.ground import Ground, days
from diagnose.plan.records import Row, Schedule
from diagnose.rulebase.vocabulary import WATERS, plain_number

_BY_MEDIUM = {
    "soil_mix": "feel 2.5 cm down, or lift the pot",
    "chunky_mix": "lift the pot, or push a dry stick down: the top of a coarse mix dries long before its middle",
    "mineral_passive": "read the gauge: refill some days after it stands at empty",
    "moss": "squeeze a pinch: water when the top is crisp and the middle barely damp",
}
"""Common practice, no source; feeling 2.5 cm down is W-08."""


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield when to expect the pot dry, if that could be computed or was seen."""
    dry = ground.given.before.get("days_to_dry")
    medium = ground.given.word("medium") or ""
    if dry is None or dry.low is None or dry.high is None or medium not in _BY_MEDIUM:
        return
    low, high = max(1, round(dry.low)), max(1, round(dry.high))
    span = f" ({low} to {high})" if high > low else ""
    rows = [
        Row(
            None,
            f"dry enough for water about {_about(dry)} after a soak{span}: {_BY_MEDIUM[medium]}",
        )
    ]
    if (wants := ground.given.word("plant_water")) in WATERS:
        rows.append(Row(None, f"this kind likes it {WATERS[wants]}"))
    if (every := ground.number("watering_every_d")) is not None:
        rows.append(Row(None, _against(every, low, high)))
    if (since := ground.number("days_since_watered")) is not None:
        watered = ground.today - days(since)
        begin, end = max(ground.today, watered + days(low)), max(ground.today, watered + days(high))
        rows.append(Row(begin, "feel it from this day on"))
        if end > begin:
            rows.append(Row(end, "if it still is not dry now, look at roots, drainage and light"))
    seen = dry.used == ("dries_in_d",)
    origin = (
        ("as you saw it dry",)
        if seen
        else ("water in the pot over water use: see the measure of drying", "from memory")
    )
    note = "A guide for when to feel the pot, never for when to water it." + (
        "" if seen else " A plant with few leaves or sick roots drinks less and takes longer."
    )
    yield Schedule("watering", "How long the pot stays moist", tuple(rows), origin, note, dry.assumed)


def _about(dry: Measure) -> str:
    value = float(dry.value)
    return "1 day" if round(value) <= 1 else f"{plain_number(round(value))} days"


def _against(every: float, low: int, high: int) -> str:
    habit = f"watered every {plain_number(every)} days, "
    if every < low:
        return habit + "it gets water before the last is used"
    if every > high:
        return habit + "it stands dry before each watering"
    return habit + "it is watered about as it dries"
