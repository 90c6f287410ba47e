"""The light measures: daily light integral now and through the year, against what the plant needs."""

from collections.abc import Iterator

from diagnose.language import _, marked, month_said, numeral
from diagnose.measures.light.answers import Guess, read
from diagnose.measures.light.climate import sunshine_shares
from diagnose.measures.light.ranges import Range, Year
from diagnose.measures.light.situation import Situation, daylight_known, this_month, year_of_light
from diagnose.measures.measure import Assumption, Declaration, Given, Measure, percentage
from diagnose.measures.needs import LightNeed

_INPUTS = (
    "place", "date", "window_direction", "window_width_cm", "window_height_cm", "window_sill_to_leaf_cm",
    "window_offset_cm", "distance_to_window_cm", "glazing", "window_cover", "obstruction_deg", "sky_seen",
    "light_meter", "light_meter_unit", "light_meter_source", "grow_light", "lamp_ppfd_umol_m2_s", "lamp_h_d",
    "lamp_w", "lamp_distance_cm", "leaf_dust",
)  # fmt: skip
_SOURCE = (
    "sun: Reda & Andreas 2004; clear sky: Ineichen & Perez 2002; clouds: sunshine normals and FAO-56; "
    "window: Tregenza & Sharples 1993; photons: Faust & Logan 2018, Thimijan & Heins 1983"
)
_NEED = "the light measure over the plant profile's need"


def _declared(name: str, meaning: str, source: str, unit: str, most: float, *more: str) -> Declaration:
    return Declaration(name, meaning, source, unit=unit, least=0, most=most, inputs=(*_INPUTS, *more))


DECLARED: tuple[Declaration, ...] = (
    _declared(
        "dli_mol_m2_d", marked("daily light integral at the leaf this month"), _SOURCE, "mol/m²/d", 1e4
    ),
    _declared(
        "light_share_of_least_percent",
        marked("light this month against the least it lives on"),
        _NEED,
        "%",
        1e6,
        "plant",
    ),
    _declared(
        "light_share_of_good_percent",
        marked("light this month against what it grows well in"),
        _NEED,
        "%",
        1e6,
        "plant",
    ),
    _declared(
        "darkest_month_dli_mol_m2_d", marked("daily light in the darkest month"), _SOURCE, "mol/m²/d", 1e4
    ),
    _declared(
        "months_below_least", marked("months with less light than it lives on"), _NEED, "months", 12, "plant"
    ),
    _declared(
        "light_limited_share_percent",
        marked("share of the year with less light than it grows well in"),
        _NEED,
        "%",
        100,
        "plant",
    ),
)


def measure(given: Given) -> Iterator[Measure]:
    """Yield the light measures that the answers allow."""
    reading = read(given)
    situation = reading.situation
    now = this_month(situation)
    if now is None:
        return
    used = tuple(dict.fromkeys(reading.used))
    assumed = (*_sky_assumptions(situation), *(_assumption(guess) for guess in reading.guesses))
    remark = _("a usual day in {month}").format(month=month_said(situation.month + 1))
    yield Measure("dli_mol_m2_d", now.expected, used, now.low, now.high, assumed, remark)
    need = given.needs.light
    if need is not None:
        yield _share("light_share_of_least_percent", now, need.least_dli_mol_m2_d, used, assumed)
        yield _share("light_share_of_good_percent", now, need.good_dli_mol_m2_d, used, assumed)
    year = year_of_light(situation)
    if year is not None:
        yield from _through_the_year(year, need, used, assumed)


def _share(
    name: str, now: Range, need: float, used: tuple[str, ...], assumed: tuple[Assumption, ...]
) -> Measure:
    share = now.times(100 / need)
    return Measure(name, share.expected, (*used, "plant"), share.low, share.high, assumed)


def _through_the_year(
    year: Year, need: LightNeed | None, used: tuple[str, ...], assumed: tuple[Assumption, ...]
) -> Iterator[Measure]:
    darkest = min(range(12), key=lambda month: year[month].expected)
    low, expected, high = year[darkest]
    yield Measure("darkest_month_dli_mol_m2_d", expected, used, low, high, assumed, month_said(darkest + 1))
    if need is None:
        return
    used = (*used, "plant")
    few, months, many = _months_below(year, need.least_dli_mol_m2_d)
    yield Measure("months_below_least", months, used, few, many, assumed)
    few, months, many = _months_below(year, need.good_dli_mol_m2_d)
    share = 100 / 12
    yield Measure("light_limited_share_percent", months * share, used, few * share, many * share, assumed)


def _months_below(year: Year, need: float) -> tuple[float, float, float]:
    """Return in how many months the light lies below a need: were it high, as expected, and were it low."""
    return (
        float(sum(month.high < need for month in year)),
        float(sum(month.expected < need for month in year)),
        float(sum(month.low < need for month in year)),
    )


def _assumption(guess: Guess) -> Assumption:
    """Return a guess with how far the result would move, computed where other values are at hand."""
    moved = [
        f"{label}: {numeral(now.expected, '.2g')} mol/m²/d"
        for label, other in guess.others
        if (now := this_month(other))
    ]
    return Assumption(guess.name, guess.value, "; ".join(moved) or guess.effect)


def _sky_assumptions(situation: Situation) -> Iterator[Assumption]:
    if not daylight_known(situation):
        yield Assumption(_("daylight"), _("not counted"), _("any daylight comes on top of the lamp"))
        return
    if situation.opening is None or situation.reading_dli is not None:
        return
    if situation.latitude is None or situation.longitude is None:
        return
    share = sunshine_shares(situation.latitude, situation.longitude)[situation.month]
    yield Assumption(
        _("clouds"),
        _("sunshine for {percent} of the day, from cities nearby").format(percent=percentage(share.expected)),
        _("from {low} to {high} in the low and high figure").format(
            low=percentage(share.low), high=percentage(share.high)
        ),
    )
    yield Assumption(_("leaf"), _("level"), _("a leaf turned to the window gets more"))
