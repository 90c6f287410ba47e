"""Measures of feeding: strength, weekly nitrogen, salts."""

from collections.abc import Iterator

from diagnose.language import _, marked, numeral
from diagnose.measures.feeding.load import (
    LEAST_N_G_M2_WEEK,
    MOST_N_G_M2_WEEK,
    TRIAL_DLI,
    USUAL_N_G_M2_WEEK,
    usual_n_g_m2_week,
    weekly_n_g_m2,
)
from diagnose.measures.feeding.salts import HIGHEST_RATIO, USUAL_DRAWN, Habit, medium_ec_class, salt_ratio
from diagnose.measures.feeding.strength import K_IN_K2O, P_IN_P2O5, feed_ec_ms_cm, nutrient_ppm
from diagnose.measures.measure import Assumption, Declaration, Given, Measure
from diagnose.measures.roots.declared import DRYING_QUESTIONS
from diagnose.measures.roots.expected import told_pot
from diagnose.measures.roots.medium import MEDIA

_LABEL = ("feed_n_percent", "feed_dose_g_l")
_DOSE_SLIP = 1.25  # a kitchen measure is good to about a quarter either way: from memory
_POURED_PERCENT = 30.0  # water poured at a feed, % of the pot, if the medium is not known (W-20)
_HIGHEST_LOAD_PERCENT = 1e5

# Conductivity of the water alone if not measured, mS/cm: from memory; N-12 finds 0.2 to 0.5 fit for all
# uses.
_WATER_EC = {"rain_or_pure": 0.05, "tap": 0.4, "hard_tap": 0.8, "softened": 0.8}
_USUAL_WATER_EC = 0.4

# Days from one flush to the next: monthly, or every 4 to 6 months (UC ANR Garden Web; N-15).
_FLUSH_D = {"monthly": 30.0, "now_and_then": 150.0}
_USUAL_MEDIUM_D = 365.0
_DAYS_A_MONTH = 365.25 / 12
# Expected, mildest and harshest habit. Draining a tenth, a fifth and a twentieth of each watering, and 60,
# 30 and 90 % of the salts left by the plant: from memory. Nothing leaves a pot without holes; one that
# stands in its water draws half of it back.
_DRAINS = (Habit(0.10, 0.6), Habit(0.20, 0.3), Habit(0.05, 0.9))
_KEEPS_ALL = (Habit(0, 0.6), Habit(0.05, 0.3), Habit(0, 0.9))
_DRAWS_BACK = (Habit(0.05, 0.6), Habit(0.10, 0.3), Habit(0, 0.9))
_NOT_TOLD = (Habit(0.10, 0.6), Habit(0.20, 0.3), Habit(0, 0.9))

DECLARED: tuple[Declaration, ...] = (
    Declaration("feed_n_ppm", marked("nitrogen in the feed"), "10 x % x g/L", "ppm", (), 0, 40_000, _LABEL),
    Declaration(
        "feed_ec_ms_cm",
        marked("conductivity of the mixed feed, its water included"),
        "Michigan State University Extension, table 1: 0.64 mS/cm at 100 ppm N",
        "mS/cm",
        (),
        0,
        250,
        (*_LABEL, "water_ec_ms_cm", "water_source"),
    ),
    Declaration(
        "weekly_n_load_percent",
        marked("nitrogen a week against what suits a light feeder in this light"),
        "Poole & Conover 1991, UF/IFAS RH-91-15; Soil and Crop Management SCM-7, 2004; scaled by light",
        "%",
        (),
        0,
        _HIGHEST_LOAD_PERCENT,
        (*_LABEL, "feeding", "feed_every_d", "pot_top_cm", "pot_base_cm", "pot_height_cm", "medium"),
    ),
    Declaration(
        "salt_ratio",
        marked("salts in the pot's water over those in what is poured"),
        "mixing model; settles at the leaching requirement of the US Bureau of Reclamation, 1993",
        "",
        (),
        1,
        HIGHEST_RATIO,
        (
            "watering_every_d",
            "flushing",
            "drainage",
            "standing_water",
            "days_since_medium_changed",
            "medium_age_months",
            *DRYING_QUESTIONS,
        ),
    ),
    Declaration(
        "medium_ec_class",
        marked("what the conductivity of the medium means for the way it was sampled"),
        "University of Massachusetts Extension, soilless media tests, table 2 (second-hand)",
        words=("very_low", "low", "normal", "high", "very_high"),
        inputs=("medium_ec_ms_cm", "medium_ec_method"),
    ),
)


def measure(given: Given) -> Iterator[Measure]:
    """Yield the measures of feeding that the answers allow."""
    percent, dose = given.number("feed_n_percent"), given.number("feed_dose_g_l")
    never = given.word("feeding") == "never"
    if never:
        yield Measure("weekly_n_load_percent", 0.0, ("feeding",))
    if percent is not None and dose is not None:
        n_ppm = nutrient_ppm(percent, dose)
        yield _strength(given, n_ppm, dose)
        yield _conductivity(given, n_ppm)
        if not never:
            yield from _load(given, n_ppm)
    yield from _salts(given)
    ec, method = given.number("medium_ec_ms_cm"), given.word("medium_ec_method")
    if ec is not None and method is not None:
        yield Measure("medium_ec_class", medium_ec_class(ec, method), ("medium_ec_ms_cm", "medium_ec_method"))


def _strength(given: Given, n_ppm: float, dose: float) -> Measure:
    parts = [f"N {n_ppm:.0f}"]
    for name, question, share in (("P", "feed_p2o5_percent", P_IN_P2O5), ("K", "feed_k2o_percent", K_IN_K2O)):
        percent = given.number(question)
        if percent is not None:
            parts.append(f"{name} {nutrient_ppm(percent, dose) * share:.0f}")
    return Measure(
        "feed_n_ppm",
        n_ppm,
        _LABEL,
        n_ppm / _DOSE_SLIP,
        n_ppm * _DOSE_SLIP,
        (
            Assumption(
                _("dose"),
                _("weighed"),
                _("a spoon may be off by a quarter; 1 mL of a liquid feed is over 1 g"),
            ),
        ),
        remark=f"{', '.join(parts)} ppm.",
    )


def _conductivity(given: Given, n_ppm: float) -> Measure:
    used, assumed = list(_LABEL), []
    water, source = given.number("water_ec_ms_cm"), given.word("water_source")
    if water is not None:
        used.append("water_ec_ms_cm")
    else:
        if source is not None:
            used.append("water_source")
        water = _WATER_EC.get(source or "", _USUAL_WATER_EC)
        assumed.append(
            Assumption(_("water alone"), f"{numeral(water)} mS/cm", _("adds as it stands to the feed"))
        )
    expected, least, most = feed_ec_ms_cm(n_ppm)
    return Measure(
        "feed_ec_ms_cm",
        expected + water,
        tuple(used),
        least + water,
        most + water,
        tuple(assumed),
        remark=_("From nitrogen alone: a feed richer in potash conducts more, and its label knows better."),
    )


def _load(given: Given, n_ppm: float) -> Iterator[Measure]:
    told, every = told_pot(given), given.number("feed_every_d")
    if told is None or not every:
        return
    used, assumed = [*_LABEL, "feed_every_d", *told.used], list(told.assumed)
    medium = MEDIA.get(given.word("medium") or "")
    poured = _POURED_PERCENT if medium is None else medium.water_percent
    used += ["medium"] if medium is not None else []
    assumed.append(
        Assumption(
            _("feed poured"),
            _("{percent} % of the pot").format(percent=numeral(poured, ".0f")),
            _("load goes with it"),
        )
    )
    dli = given.number("dli_mol_m2_d")
    if dli is None:
        light = f"{numeral(TRIAL_DLI, '.1f')} mol/m²/d"
        assumed.append(Assumption(_("light"), light, _("more light carries more feed")))
    else:
        used.append("dli_mol_m2_d")
    litres = told.pot.volume_l * poured / 100
    load = weekly_n_g_m2(n_ppm, litres, every, told.pot.top_area_m2)
    percent = 100 * load / usual_n_g_m2_week(TRIAL_DLI if dli is None else dli)
    value, low, high = (
        min(_HIGHEST_LOAD_PERCENT, percent * USUAL_N_G_M2_WEEK / suits)
        for suits in (USUAL_N_G_M2_WEEK, MOST_N_G_M2_WEEK, LEAST_N_G_M2_WEEK)
    )
    yield Measure("weekly_n_load_percent", value, tuple(used), low, high, tuple(assumed))


def _salts(given: Given) -> Iterator[Measure]:
    every, flushing = given.number("watering_every_d"), given.word("flushing")
    if not every or flushing is None:
        return
    used, assumed = ["watering_every_d", "flushing"], []
    in_medium = {
        name: value * (_DAYS_A_MONTH if name == "medium_age_months" else 1)
        for name in ("days_since_medium_changed", "days_since_repotted", "medium_age_months")
        if (value := given.number(name)) is not None
    }
    if in_medium:
        used.append(min(in_medium, key=lambda name: in_medium[name]))
    elif flushing not in _FLUSH_D:
        assumed.append(Assumption(_("age of the medium"), f"{_USUAL_MEDIUM_D:.0f} d", _("grows with age")))
    days = min(min(in_medium.values(), default=_USUAL_MEDIUM_D), _FLUSH_D.get(flushing, float("inf")))
    dry = given.number("days_to_dry")
    drawn = USUAL_DRAWN
    if dry is None:
        assumed.append(
            Assumption(_("watering"), _("when half the pot's water is used"), _("if sooner, less builds up"))
        )
    else:
        used.append("days_to_dry")
        drawn *= min(1.0, every / dry)
    value, low, high = (salt_ratio(days / every, habit, drawn) for habit in _habits(given, used))
    assumed.append(
        Assumption(_("water that drains"), _("a tenth of each watering, none if shut in"), _("see the range"))
    )
    yield Measure("salt_ratio", value, tuple(used), low, high, tuple(assumed))


def _habits(given: Given, used: list[str]) -> tuple[Habit, Habit, Habit]:
    for name, answers, habits in (
        ("medium", ("mineral_passive", "water"), _KEEPS_ALL),
        ("drainage", ("none",), _KEEPS_ALL),
        ("standing_water", ("yes",), _DRAWS_BACK),
        ("drainage", ("free", "cover_pot"), _DRAINS),
    ):
        if given.word(name) in answers:
            used.append(name)
            return habits
    return _NOT_TOLD
