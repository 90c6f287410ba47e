"""Water: how long the pot is expected to take to dry, and from which day to feel it."""

from collections.abc import Iterator

from diagnose.language import _, marked, ngettext
from diagnose.plan.ground import Ground, days
from diagnose.plan.records import Row, Schedule
from diagnose.rulebase.vocabulary import WATERS, plain_number

_BY_MEDIUM = {
    "soil_mix": marked("feel 2.5 cm down, or lift the pot"),
    "chunky_mix": marked(
        "lift the pot, or push a dry stick down: the top of a coarse mix dries long before its middle"
    ),
    "mineral_passive": marked("read the gauge: refill some days after it stands at empty"),
    "moss": marked("squeeze a pinch: water when the top is crisp and the middle barely damp"),
}
"""Common practice, no source; feeling 2.5 cm down is W-08."""


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield when to expect the pot dry, if that could be computed or was seen."""
    dry = ground.given.before.get("days_to_dry")
    medium = ground.given.word("medium") or ""
    if dry is None or dry.low is None or dry.high is None or medium not in _BY_MEDIUM:
        return
    low, high = max(1, round(dry.low)), max(1, round(dry.high))
    rows = [Row(None, _dry_after(max(1, round(float(dry.value))), low, high, _(_BY_MEDIUM[medium])))]
    if (wants := ground.given.word("plant_water")) in WATERS:
        rows.append(Row(None, _("this kind likes it {how}").format(how=_(WATERS[wants]))))
    if (every := ground.number("watering_every_d")) is not None:
        rows.append(Row(None, _against(every, low, high)))
    if (since := ground.number("days_since_watered")) is not None:
        watered = ground.today - days(since)
        begin, end = max(ground.today, watered + days(low)), max(ground.today, watered + days(high))
        rows.append(Row(begin, _("feel it from this day on")))
        if end > begin:
            rows.append(Row(end, _("if it still is not dry now, look at roots, drainage and light")))
    seen = dry.used == ("dries_in_d",)
    origin = (
        (_("as you saw it dry"),)
        if seen
        else (_("water in the pot over water use: see the measure of drying"), "from memory")
    )
    note = _("A guide for when to feel the pot, never for when to water it.")
    if not seen:
        note += " " + _("A plant with few leaves or sick roots drinks less and takes longer.")
    yield Schedule("watering", _("How long the pot stays moist"), tuple(rows), origin, note, dry.assumed)


def _dry_after(days: int, low: int, high: int, feel: str) -> str:
    text = (
        ngettext(
            "dry enough for water about {count} day after a soak ({low} to {high}): {feel}",
            "dry enough for water about {count} days after a soak ({low} to {high}): {feel}",
            days,
        )
        if high > low
        else ngettext(
            "dry enough for water about {count} day after a soak: {feel}",
            "dry enough for water about {count} days after a soak: {feel}",
            days,
        )
    )
    return text.format(count=plain_number(days), low=low, high=high, feel=feel)


def _against(every: float, low: int, high: int) -> str:
    if every < low:
        text = ngettext(
            "watered every {count} day, it gets water before the last is used",
            "watered every {count} days, it gets water before the last is used",
            every,
        )
    elif every > high:
        text = ngettext(
            "watered every {count} day, it stands dry before each watering",
            "watered every {count} days, it stands dry before each watering",
            every,
        )
    else:
        text = ngettext(
            "watered every {count} day, it is watered about as it dries",
            "watered every {count} days, it is watered about as it dries",
            every,
        )
    return text.format(count=plain_number(every))
