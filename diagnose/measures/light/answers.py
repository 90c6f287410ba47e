"""From the grower's answers to a situation: what was used, and what had to be assumed."""

import math
from dataclasses import dataclass, field, replace

from diagnose.language import _, numeral, pgettext
from diagnose.measures.light.convert import LUX_PER_PPFD, dli_from_noon_ppfd, ppfd_from_reading
from diagnose.measures.light.lamp import METER_ERROR, ROUGHLY, Lamp, ppfd_from_watts
from diagnose.measures.light.opening import FACING_DEG, Opening, share_passed
from diagnose.measures.light.situation import Situation
from diagnose.measures.measure import Given
from diagnose.measures.places import Spot, locate
from diagnose.measures.season import day_length_h

DUST = {"clean": 1.0, "some": 0.95, "thick": 0.8}
"""Share of light that dust on the leaf lets through: common practice, no source. That photosynthesis falls by
just the share of light that the dust takes: Hirano, Kiyota, Kitaya, Aiga 1990, J. Agric. Meteorol. 46:1-7."""

BRIGHTEST_PPFD = (
    2800.0  # full summer sun is about 2000 (L-25); the rest for broken cloud and the meter's error
)

USUAL_SIZE_CM = 120.0  # among the usual catalogue widths and heights; common practice, no source
USUAL_SKYLINE_DEG = 10.0  # open ground with houses some way off; common practice, no source
SKYLINE_BY_SKY_SEEN = {"most": 0.1, "half": 0.5, "sliver": 0.9, "none": 1.0}
"""Share of the window's height that is not sky, by the word the grower chose; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Guess:
    """Something assumed: its name, the value taken, and the same situation with other values, by label."""

    name: str
    value: str
    others: tuple[tuple[str, Situation], ...] = ()
    effect: str = ""


@dataclass(slots=True)
class Reading:
    """The situation read from the answers so far, the answers used, and the guesses made."""

    situation: Situation
    used: list[str] = field(default_factory=list)
    guesses: list[Guess] = field(default_factory=list)


def read(given: Given) -> Reading:
    """Return the situation that the known answers describe."""
    month = given.case.date.month - 1
    reading = Reading(Situation(month), used=["date"])
    spot = locate(given.case.place)
    if spot is not None:
        elevation = given.case.place.elevation_m or 0.0
        reading.situation = replace(
            reading.situation, latitude=spot.latitude, longitude=spot.longitude, elevation_m=elevation
        )
        reading.used.append("place")
    _dust(given, reading)
    _window(given, reading)
    _meter(given, reading, spot)
    _lamp(given, reading)
    return reading


def _dust(given: Given, reading: Reading) -> None:
    word = given.word("leaf_dust")
    if word in DUST:
        reading.situation = replace(reading.situation, reaches_leaf=DUST[word])
        reading.used.append("leaf_dust")


def _window(given: Given, reading: Reading) -> None:
    direction = given.word("window_direction")
    if direction == "none":
        reading.situation = replace(reading.situation, windowless=True)
        reading.used.append("window_direction")
        return
    distance_cm = given.number("distance_to_window_cm")
    if direction is None or distance_cm is None or reading.situation.longitude is None:
        return
    reading.used += ["window_direction", "distance_to_window_cm"]
    known = {
        name: value
        for name in ("window_width_cm", "window_height_cm", "window_sill_to_leaf_cm", "window_offset_cm")
        if (value := given.number(name)) is not None
    }
    reading.used += known
    opening = Opening(
        facing_deg=FACING_DEG.get(direction),  # none for a window in the roof
        distance_m=distance_cm / 100,
        width_m=known.get("window_width_cm", USUAL_SIZE_CM) / 100,
        height_m=known.get("window_height_cm", USUAL_SIZE_CM) / 100,
        sill_m=known.get("window_sill_to_leaf_cm", 0.0) / 100,
        offset_m=known.get("window_offset_cm", 0.0) / 100,
    )
    opening = _skyline(given, reading, _glass(given, reading, opening))
    reading.situation = replace(reading.situation, opening=opening)
    _guess_window(given, reading, opening)


def _glass(given: Given, reading: Reading, opening: Opening) -> Opening:
    glazing, cover = given.word("glazing"), given.word("window_cover")
    reading.used += [name for name in ("glazing", "window_cover") if given.word(name) is not None]
    passes = share_passed(glazing or "double", cover or "none")
    return replace(opening, passes=passes, scatters=cover == "frosted")


def _skyline(given: Given, reading: Reading, opening: Opening) -> Opening:
    skyline_deg, seen = given.number("obstruction_deg"), given.word("sky_seen")
    if skyline_deg is not None:
        reading.used.append("obstruction_deg")
    elif seen is not None:
        reading.used.append("sky_seen")
        top_m = max(0.0, opening.sill_m + opening.height_m)
        top_deg = 90.0 if opening.facing_deg is None else math.degrees(math.atan2(top_m, opening.away_m))
        skyline_deg = SKYLINE_BY_SKY_SEEN[seen] * top_deg
    return replace(opening, obstruction_deg=USUAL_SKYLINE_DEG if skyline_deg is None else skyline_deg)


def _guess_window(given: Given, reading: Reading, opening: Opening) -> None:
    """Note what was not known of the window, with other values that would have been as likely."""

    def guess(name: str, value: str, *others: tuple[str, Opening]) -> None:
        changed = tuple((label, replace(reading.situation, opening=other)) for label, other in others)
        reading.guesses.append(Guess(name, value, changed))

    if given.number("window_width_cm") is None:
        others = [(f"{cm} cm", replace(opening, width_m=cm / 100)) for cm in (60, 200)]
        guess("window_width_cm", f"{USUAL_SIZE_CM:g} cm", *others)
    if given.number("window_height_cm") is None:
        others = [(f"{cm} cm", replace(opening, height_m=cm / 100)) for cm in (60, 200)]
        guess("window_height_cm", f"{USUAL_SIZE_CM:g} cm", *others)
    if given.number("window_sill_to_leaf_cm") is None and opening.facing_deg is not None:
        guess(
            "window_sill_to_leaf_cm",
            _("level with the leaves"),
            (_("40 cm above"), replace(opening, sill_m=0.4)),
        )
    if given.word("glazing") is None:
        factor = share_passed("coated", "none") / share_passed("double", "none")
        guess("glazing", _("clear double"), (_("coated"), replace(opening, passes=opening.passes * factor)))
    if given.word("window_cover") is None:
        factor = share_passed("double", "net_curtain") / share_passed("double", "none")
        guess(
            "window_cover",
            pgettext("over the window", "none"),
            (_("a net curtain"), replace(opening, passes=opening.passes * factor)),
        )
    if given.number("obstruction_deg") is None and given.word("sky_seen") is None:
        degrees = _("{degrees} degrees")
        others = [(degrees.format(degrees=deg), replace(opening, obstruction_deg=deg)) for deg in (0, 30)]
        guess("obstruction_deg", degrees.format(degrees=f"{USUAL_SKYLINE_DEG:g}"), *others)


def _meter(given: Given, reading: Reading, spot: Spot | None) -> None:
    source = given.word("light_meter_source")
    ppfd = _metered_ppfd(given, source or "daylight")
    if ppfd is None or source not in (None, "daylight"):
        return
    reading.used += ["light_meter", "light_meter_unit"]
    if source is None:
        reading.guesses.append(
            Guess("light_meter_source", _("daylight"), effect=_("under a lamp it would be less"))
        )
    else:
        reading.used.append("light_meter_source")
    day = given.case.date.timetuple().tm_yday
    hours = 12.0 if spot is None else day_length_h(spot.latitude, day)
    dli = dli_from_noon_ppfd(ppfd, hours)
    reading.situation = replace(reading.situation, reading_dli=dli)
    reading.guesses = [guess for guess in reading.guesses if not guess.others]  # the meter saw the window
    reading.guesses.append(
        Guess(
            _("course of the day"),
            _("read near noon on a usual day, {hours} h from sunrise to sunset").format(
                hours=numeral(hours, ".1f")
            ),
            effect=_("half as much if the day was bright, twice if it was dull"),
        )
    )


def _metered_ppfd(given: Given, source: str) -> float | None:
    """Return the photon flux by the meter; None if not read, or more than the sun can give (a wrong unit)."""
    value, unit = given.number("light_meter"), given.word("light_meter_unit")
    if value is None or unit is None or source not in LUX_PER_PPFD:
        return None
    ppfd = ppfd_from_reading(value, unit, source)
    return ppfd if ppfd <= BRIGHTEST_PPFD else None


def _lamp(given: Given, reading: Reading) -> None:
    if given.word("grow_light") == "none":
        reading.used.append("grow_light")
        return
    lamp = _lamp_by_meter(given, reading) or _lamp_by_figures(given, reading)
    if lamp is not None:
        reading.situation = replace(reading.situation, lamp=lamp)
    elif given.word("grow_light") == "present":
        reading.guesses.append(Guess("grow_light", _("not counted"), effect=_("the lamp comes on top")))
    else:
        reading.guesses.append(
            Guess("grow_light", pgettext("a lamp", "none"), effect=_("a lamp would come on top"))
        )


def _lamp_by_meter(given: Given, reading: Reading) -> Lamp | None:
    source, hours = given.word("light_meter_source"), given.number("lamp_h_d")
    if hours is None or source in (None, "daylight"):
        return None
    ppfd = _metered_ppfd(given, source)
    if ppfd is None:
        return None
    reading.used += ["light_meter", "light_meter_unit", "light_meter_source", "lamp_h_d"]
    return Lamp(ppfd, hours, METER_ERROR)


def _lamp_by_figures(given: Given, reading: Reading) -> Lamp | None:
    hours, ppfd = given.number("lamp_h_d"), given.number("lamp_ppfd_umol_m2_s")
    watts, distance_cm = given.number("lamp_w"), given.number("lamp_distance_cm")
    if hours is None:
        return None
    if ppfd is not None:
        reading.used += ["lamp_ppfd_umol_m2_s", "lamp_h_d"]
        return Lamp(ppfd, hours)
    if watts is None or distance_cm is None:
        return None
    reading.used += ["lamp_w", "lamp_distance_cm", "lamp_h_d"]
    reading.guesses.append(
        Guess(_("lamp"), _("an LED lamp 30 cm across"), effect=_("its share may be half or twice as much"))
    )
    return Lamp(ppfd_from_watts(watts, distance_cm / 100), hours, ROUGHLY)
