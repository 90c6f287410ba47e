"""Measures of roots and water: pot, air in the medium, drying, and two indices."""

from collections.abc import Iterator

from diagnose.language import _, numeral
from diagnose.measures.measure import Assumption, Given, Measure, percentage
from diagnose.measures.roots.declared import DECLARED
from diagnose.measures.roots.expected import POT_GUESS, expected_days_to_dry, told_pot
from diagnose.measures.roots.indices import drought_index, overwatering_index
from diagnose.measures.roots.medium import MEDIA

__all__ = ["DECLARED", "measure"]

# Media break down and hold less air (W-01): after two years (W-18), this share of it; the share is from
# memory.
_OLD_MEDIUM_MONTHS, _OLD_AIR = 24, 0.7


def measure(given: Given) -> Iterator[Measure]:
    """Yield the measures of roots and water that the answers allow."""
    sums: dict[str, Measure] = {}
    for found in (*_pot(given), *_air(given), *expected_days_to_dry(given)):
        sums[found.name] = found
        yield found
    ratio = _ratio(given, sums)
    if ratio is not None:
        sums[ratio.name] = ratio
        yield ratio
    for index in (overwatering_index(given, sums), drought_index(given, sums)):
        if index is not None:
            yield index


def _pot(given: Given) -> Iterator[Measure]:
    told = told_pot(given)
    if told is not None:
        factor = POT_GUESS if told.assumed else 1.0
        volume = told.pot.volume_l
        yield Measure("pot_volume_l", volume, told.used, volume / factor, volume * factor, told.assumed)
    reservoir, height = given.number("reservoir_height_cm"), given.number("pot_height_cm")
    if reservoir is not None and height is not None:
        share = min(100.0, 100 * reservoir / height)
        yield Measure("reservoir_share_percent", share, ("reservoir_height_cm", "pot_height_cm"))


def _air(given: Given) -> Iterator[Measure]:
    medium, told = MEDIA.get(given.word("medium") or ""), told_pot(given)
    height = given.number("pot_height_cm")
    height_from, assumed = "pot_height_cm", []
    if height is None and told is not None:
        height_from, height = "pot_top_cm", told.pot.height_cm
        assumed.append(
            Assumption(_("height"), f"{numeral(height, '.0f')} cm", _("a shallower pot holds less air"))
        )
    if medium is None or height is None:
        return
    used = ["medium", height_from]
    reservoir = given.number("reservoir_height_cm")
    above = 1.0 if reservoir is None else max(0.0, 1 - reservoir / height)
    if reservoir is not None:
        used.append("reservoir_height_cm")
    kept = 1.0
    age = given.number("medium_age_months")
    if age is not None and age >= _OLD_MEDIUM_MONTHS and given.word("medium") != "mineral_passive":
        used.append("medium_age_months")
        kept = _OLD_AIR
        assumed.append(
            Assumption(
                _("old medium"),
                _("{percent} of its first air").format(percent=percentage(kept)),
                _("fresh medium holds more"),
            )
        )
    drained_cm = max(height * above, 0.1)
    air, least, most = (
        curve.air_filled_percent(drained_cm) * above
        for curve in (medium.drainage, medium.least_air, medium.most_air)
    )
    yield Measure(
        "air_filled_percent",
        air * kept,
        tuple(used),
        min(least, air) * kept,
        max(most, air),
        tuple(assumed),
        remark=_("A kind of medium, not this one: mixes of one name differ as widely as the range."),
    )


def _ratio(given: Given, sums: dict[str, Measure]) -> Measure | None:
    dry, every = sums.get("days_to_dry"), given.number("watering_every_d")
    if dry is None or not every or dry.low is None or dry.high is None:
        return None
    used = tuple(dict.fromkeys((*dry.used, "watering_every_d")))
    ratio = float(dry.value) / every
    return Measure("watering_ratio", ratio, used, dry.low / every, dry.high / every, dry.assumed)
