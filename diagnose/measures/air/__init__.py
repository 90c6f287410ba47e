"""Measures of the air: dryness, dew point, cold glass, chilling, swings."""

from collections.abc import Iterator

from diagnose.language import _, marked, numeral
from diagnose.measures.air.chill import USUAL_NIGHT_H, chill_in_a_night
from diagnose.measures.air.glass import NIGHT_DROP_K, PANES, UNKNOWN_PANE, glass_temperature_c
from diagnose.measures.air.vapour import dew_point_c, vapour_pressure_deficit_kpa, vapour_pressure_kpa
from diagnose.measures.measure import Assumption, Declaration, Given, Measure

_HYGROMETER_PERCENT = 5.0  # how far a cheap hygrometer may be off: from memory
_LEAF_K = 2.0  # a leaf is about this much cooler or warmer than air (A-09 shows what it does): from memory
_FAO = "FAO-56, Allen et al. 1998, equation 11"

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "vpd_kpa",
        marked("how strongly the air dries a leaf by day (vapour pressure deficit)"),
        _FAO,
        "kPa",
        least=0,
        most=20,
        inputs=("day_temp_c", "humidity_percent"),
    ),
    Declaration(
        "dew_point_c",
        marked("temperature at which the room's air wets a surface"),
        f"inverse of {_FAO}",
        "°C",
        least=-70,
        most=60,
        inputs=("day_temp_c", "humidity_percent"),
    ),
    Declaration(
        "glass_temp_c",
        marked("coldest the inner face of the window gets at night"),
        "steady-state heat flow; U-values and film resistance as named in air/glass.py",
        "°C",
        least=-60,
        most=60,
        inputs=("outdoor_low_c", "night_low_c", "day_temp_c", "glazing"),
    ),
    Declaration(
        "glass_wet",
        marked("water condenses on the window at night, which feeds mould"),
        "glass temperature against dew point (ASHRAE practice; US EPA mould course, chapter 2)",
        words=("yes", "no"),
        inputs=("outdoor_low_c", "night_low_c", "day_temp_c", "humidity_percent", "glazing"),
    ),
    Declaration(
        "chill_degree_hours",
        marked("cold of one night below the plant's chilling limit"),
        "severity is temperature times time: Chen, UF/IFAS EDIS EP530; shape of the night assumed",
        "°C·h",
        least=0,
        most=1500,
        inputs=("night_low_c", "day_temp_c", "plant"),
    ),
    Declaration(
        "night_shortfall_k",
        marked("how far nights fall below the plant's lowest good night"),
        "difference from the plant's profile",
        "K",
        least=0,
        most=100,
        inputs=("night_low_c", "plant"),
    ),
    Declaration(
        "day_night_swing_k",
        marked("difference between day and night"),
        "difference of the two readings",
        "K",
        least=0,
        most=60,
        inputs=("day_temp_c", "night_low_c"),
    ),
    Declaration(
        "humidity_shortfall_percent",
        marked("points of humidity below the plant's least"),
        "difference from the plant's profile",
        "%",
        least=0,
        most=100,
        inputs=("humidity_percent", "plant"),
    ),
)


def measure(given: Given) -> Iterator[Measure]:
    """Yield the measures of the air that the answers allow."""
    yield from _moisture(given)
    yield from _glass(given)
    yield from _cold(given)


def _moisture(given: Given) -> Iterator[Measure]:
    humidity = given.number("humidity_percent")
    if humidity is None:
        return
    if given.needs.humidity is not None:
        shortfall = max(0.0, given.needs.humidity.least_percent - humidity)
        yield Measure(
            "humidity_shortfall_percent",
            shortfall,
            ("humidity_percent", "plant"),
            low=max(0.0, shortfall - _HYGROMETER_PERCENT),
            high=max(0.0, given.needs.humidity.least_percent - humidity + _HYGROMETER_PERCENT),
        )
    day = given.number("day_temp_c")
    if day is None:
        return
    used = ("day_temp_c", "humidity_percent")
    drier, damper = max(1.0, humidity - _HYGROMETER_PERCENT), min(100.0, humidity + _HYGROMETER_PERCENT)
    vapour = vapour_pressure_kpa(day, humidity)
    yield Measure(
        "vpd_kpa",
        vapour_pressure_deficit_kpa(day, vapour),
        used,
        low=vapour_pressure_deficit_kpa(day - _LEAF_K, vapour_pressure_kpa(day, damper)),
        high=vapour_pressure_deficit_kpa(day + _LEAF_K, vapour_pressure_kpa(day, drier)),
        assumed=(
            Assumption(
                _("leaf temperature"),
                _("that of the air"),
                _(
                    "a leaf {kelvin} K cooler dries less, a sunlit leaf more; both lie inside the range"
                ).format(kelvin=numeral(_LEAF_K, ".0f")),
            ),
        ),
    )
    yield Measure(
        "dew_point_c",
        dew_point_c(vapour),
        used,
        low=dew_point_c(vapour_pressure_kpa(day, drier)),
        high=dew_point_c(vapour_pressure_kpa(day, damper)),
    )


def _glass(given: Given) -> Iterator[Measure]:
    outdoor, indoor, day = (given.number(name) for name in ("outdoor_low_c", "night_low_c", "day_temp_c"))
    assumed = []
    night_from = "night_low_c"
    if indoor is None and day is not None:
        night_from, indoor = "day_temp_c", day - NIGHT_DROP_K
        night = f"{numeral(indoor, '.0f')} °C"
        assumed.append(Assumption(_("night in the room"), night, _("a colder room has colder glass")))
    if outdoor is None or indoor is None:
        return
    used = ["outdoor_low_c", night_from]
    glazing = given.word("glazing")
    pane = PANES.get(glazing or "", UNKNOWN_PANE)
    if glazing in PANES:
        used.append("glazing")
    else:
        assumed.append(
            Assumption("glazing", _("double"), _("single panes are far colder, coated ones warmer"))
        )
    ends = sorted(glass_temperature_c(indoor, outdoor, u) for u in (pane.best, pane.worst))
    glass = Measure(
        "glass_temp_c",
        glass_temperature_c(indoor, outdoor, pane.u_w_m2k),
        tuple(used),
        low=ends[0],
        high=ends[1],
        assumed=tuple(assumed),
        remark=_(
            "Centre of the pane; edges and frame are colder, and drawn curtains make glass colder still."
        ),
    )
    yield glass
    yield from _wet_glass(given, glass)


def _wet_glass(given: Given, glass: Measure) -> Iterator[Measure]:
    humidity, day = given.number("humidity_percent"), given.number("day_temp_c")
    if humidity is None or day is None or glass.low is None or glass.high is None:
        return
    dew = dew_point_c(vapour_pressure_kpa(day, humidity))
    wet = tuple(float(value) <= dew for value in (glass.low, glass.value, glass.high))
    if "glazing" not in glass.used and wet[0] != wet[2]:
        return  # the answer hangs on the glazing, and that is not known
    yield Measure(
        "glass_wet",
        "yes" if wet[1] else "no",
        tuple(dict.fromkeys((*glass.used, "day_temp_c", "humidity_percent"))),
        assumed=(
            *glass.assumed,
            Assumption(
                _("vapour at night"), _("as by day"), _("airing lowers it, cooking and many plants raise it")
            ),
        ),
        remark="" if wet[0] == wet[2] else _("Close: another pane of the same kind could go the other way."),
    )


def _cold(given: Given) -> Iterator[Measure]:
    low, day = given.number("night_low_c"), given.number("day_temp_c")
    if low is None:
        return
    if day is not None:
        yield Measure("day_night_swing_k", abs(day - low), ("day_temp_c", "night_low_c"))
    need = given.needs.warmth
    if need is None:
        return
    yield Measure("night_shortfall_k", max(0.0, need.night_least_c - low), ("night_low_c", "plant"))
    used = ["night_low_c", "plant"]
    assumed = [
        Assumption(
            _("shape of the night"), _("half a sine"), _("a V or a level night: the ends of the range")
        )
    ]
    if day is None:
        assumed.append(
            Assumption(
                _("evening"),
                _("{kelvin} K above the low").format(kelvin=numeral(NIGHT_DROP_K, ".0f")),
                _("if warmer, the cold is shorter"),
            )
        )
    else:
        used.append("day_temp_c")
    day_length = given.number("day_length_h")
    if day_length is None:
        night = USUAL_NIGHT_H
        assumed.append(
            Assumption(_("length of the night"), f"{night:.0f} h", _("grows with the night's length"))
        )
    else:
        night = min(24.0, max(0.0, 24 - day_length))
        used.append("day_length_h")
    evening = low + NIGHT_DROP_K if day is None else day
    chill = chill_in_a_night(evening, low, need.chill_c, night)
    yield Measure(
        "chill_degree_hours",
        chill.expected,
        tuple(used),
        low=chill.least,
        high=chill.most,
        assumed=tuple(assumed),
    )
