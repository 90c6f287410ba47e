"""What the plant's light would be with one thing changed."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from diagnose.language import _, numeral
from diagnose.measures.light.lamp import Lamp
from diagnose.measures.light.opening import FACING_DEG
from diagnose.measures.light.ranges import Range
from diagnose.measures.light.situation import Situation, this_month, year_of_light

NEARER_M = 1.0
BESIDE_GLASS_M = 0.3  # nearer than this leaves touch cold or hot glass; common practice, no source
EXTRA_LAMP = Lamp(ppfd_umol_m2_s=100, hours=12)  # a modest lamp over foliage; common practice, no source
LONGER_H = 2.0
LONGEST_H = 16.0  # plants get a night; common practice, no source


@dataclass(frozen=True, slots=True)
class Alternative:
    """One change and the light it would give in mol/m²/d: this month and, where known, in the darkest."""

    id: str
    label: str
    this_month: Range
    darkest: Range | None


def alternatives(situation: Situation) -> tuple[Alternative, ...]:
    """Return what each possible change would give; empty where the light as it is can't be told."""
    if this_month(situation) is None:
        return ()
    found = []
    for name, label, changed in _changes(situation):
        now, year = this_month(changed), year_of_light(changed)
        if now is not None:
            found.append(Alternative(name, label, now, min(year, key=_expected) if year else None))
    return tuple(found)


def _expected(month: Range) -> float:
    return month.expected


def _changes(situation: Situation) -> Iterator[tuple[str, str, Situation]]:
    opening = situation.opening
    if situation.reaches_leaf < 1:
        yield "clean_leaves", _("with clean leaves"), replace(situation, reaches_leaf=1.0)
    if opening is not None and situation.reading_dli is None:
        nearer_m = min(NEARER_M, opening.distance_m - BESIDE_GLASS_M)
        if nearer_m > 0:
            moved = replace(opening, distance_m=opening.distance_m - nearer_m)
            label = _("{cm} cm nearer to the window").format(cm=numeral(nearer_m * 100, ".0f"))
            yield "nearer", label, replace(situation, opening=moved)
        for direction, label in _facing().items():
            azimuth = FACING_DEG[direction]
            if opening.facing_deg not in (None, azimuth):
                turned = replace(opening, facing_deg=azimuth)
                yield direction, label, replace(situation, opening=turned)
    lamp = situation.lamp
    if lamp is None:
        label = _("with a lamp of {ppfd} µmol/m²/s for {hours} h a day").format(
            ppfd=numeral(EXTRA_LAMP.ppfd_umol_m2_s, "g"), hours=numeral(EXTRA_LAMP.hours, "g")
        )
        yield "lamp", label, replace(situation, lamp=EXTRA_LAMP)
    elif lamp.hours < LONGEST_H:
        hours = min(LONGEST_H, lamp.hours + LONGER_H)
        label = _("with the lamp on for {hours} h a day").format(hours=numeral(hours, "g"))
        yield "lamp_longer", label, replace(situation, lamp=replace(lamp, hours=hours))


def _facing() -> dict[str, str]:
    return {
        "north": _("at a like window facing north"),
        "east": _("at a like window facing east"),
        "south": _("at a like window facing south"),
        "west": _("at a like window facing west"),
    }
