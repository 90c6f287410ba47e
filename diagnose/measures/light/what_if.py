"""What the plant's light would be with one thing changed."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

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
        yield "clean_leaves", "with clean leaves", replace(situation, reaches_leaf=1.0)
    if opening is not None and situation.reading_dli is None:
        nearer_m = min(NEARER_M, opening.distance_m - BESIDE_GLASS_M)
        if nearer_m > 0:
            moved = replace(opening, distance_m=opening.distance_m - nearer_m)
            label = f"{nearer_m * 100:.0f} cm nearer to the window"
            yield "nearer", label, replace(situation, opening=moved)
        for direction in ("north", "east", "south", "west"):
            azimuth = FACING_DEG[direction]
            if opening.facing_deg not in (None, azimuth):
                turned = replace(opening, facing_deg=azimuth)
                yield direction, f"at a like window facing {direction}", replace(situation, opening=turned)
    lamp = situation.lamp
    if lamp is None:
        label = f"with a lamp of {EXTRA_LAMP.ppfd_umol_m2_s:g} µmol/m²/s for {EXTRA_LAMP.hours:g} h a day"
        yield "lamp", label, replace(situation, lamp=EXTRA_LAMP)
    elif lamp.hours < LONGEST_H:
        hours = min(LONGEST_H, lamp.hours + LONGER_H)
        label = f"with the lamp on for {hours:g} h a day"
        yield "lamp_longer", label, replace(situation, lamp=replace(lamp, hours=hours))
