"""What the plants that stand out have in common: each trait tested exactly, all tests corrected together."""

import datetime as dt
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from diagnose.collection.chance import FALSE_DISCOVERIES, adjusted, drawn_at_least
from diagnose.journal.records import EventRecord, PlantRecord
from diagnose.language import _, marked

LOOK_BACK_D = 90 + 42
"""How long ago an event may lie: the 90 days that are "recent", and six weeks for it to show (common practice, no
source)."""
FEWEST_HOLDERS = 2
"""A trait of a single plant is shared by nobody."""
_SAID = {
    "moved": marked("moved"), "repotted": marked("repotted"), "medium_changed": marked("given a new medium"),
    "fed": marked("fed"), "treated": marked("treated"), "brought_home": marked("brought home"),
    "heating_on": marked("heating switched on"), "other": marked("noted"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Shared:
    """A trait that plants which lose more than before have more often than chance allows.

    Several names mean that the very same plants have all of these traits, so that they cannot be told apart.
    """

    names: tuple[str, ...]
    holders: int
    """Plants tested that have it."""
    raised_holders: int
    """Of these, the plants that lose more than before (at 5 % each)."""
    raised: int
    """All plants that lose more than before, of `tested`."""
    tested: int
    p: float
    """Exact, one-sided (hypergeometric)."""
    p_adjusted: float
    """Corrected for all traits tested (Benjamini & Hochberg 1995)."""
    plants: tuple[int, ...]
    """Ids of the raised plants that have it."""


def traits(
    plants: Iterable[PlantRecord], events: Iterable[EventRecord], today: dt.date
) -> dict[str, frozenset[int]]:
    """Return each trait with the ids of the plants that have it: place, kind, medium, and dated events by week."""
    found: dict[str, set[int]] = defaultdict(set)
    for plant in plants:
        if plant.place:
            found[_("at {place}").format(place=plant.place)].add(plant.id)
        if kind := plant.kind or plant.profile:
            found[kind].add(plant.id)
        if plant.medium:
            found[_("in {medium}").format(medium=plant.medium)].add(plant.id)
    for event in events:
        if not 0 <= (today - event.date).days <= LOOK_BACK_D:
            continue
        monday = event.date - dt.timedelta(days=event.date.weekday())
        said = _(_SAID.get(event.kind, event.kind))
        found[_("{what} in the week of {monday}").format(what=said, monday=monday)].add(event.plant_id)
        if event.note:
            noted = _("{what} with {note}") if event.kind in ("fed", "treated") else _("{what}: {note}")
            found[noted.format(what=said, note=event.note)].add(event.plant_id)
    return {name: frozenset(holders) for name, holders in found.items()}


def shared_traits(
    having: Mapping[str, Collection[int]], raised: Collection[int], tested: Collection[int]
) -> tuple[Shared, ...]:
    """Return the traits that raised plants share beyond chance, surest first; every trait of two plants is tested."""
    raised, tested = frozenset(raised), frozenset(tested)
    alike: dict[frozenset[int], list[str]] = defaultdict(list)
    for name, holders in having.items():
        among = frozenset(holders) & tested
        if FEWEST_HOLDERS <= len(among) < len(tested):  # what all have says nothing
            alike[among].append(name)
    groups: Sequence[tuple[frozenset[int], list[str]]] = sorted(alike.items(), key=lambda item: item[1])
    p_values = [
        drawn_at_least(len(among & raised), len(among), len(raised), len(tested)) for among, _ in groups
    ]
    found = [
        Shared(
            tuple(names), len(among), len(among & raised), len(raised), len(tested), p, corrected,
            tuple(sorted(among & raised)),
        )
        for (among, names), p, corrected in zip(groups, p_values, adjusted(p_values), strict=True)
        if corrected <= FALSE_DISCOVERIES and len(among & raised) >= FEWEST_HOLDERS
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda one: (one.p, one.names)))
