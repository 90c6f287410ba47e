"""Overwatering and drought as indices: a sum of listed points, 0 to 100."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.measures.measure import Given, Measure


@dataclass(frozen=True, slots=True)
class Component:
    """One part of an index: what was found, the answers behind it, its points, and the most it can give."""

    words: str
    used: tuple[str, ...]
    points: float
    most: float


@dataclass(frozen=True, slots=True)
class Choice:
    """A question whose answer gives points: words to show, and the points of each choice that gives any."""

    question: str
    words: str
    points: dict[str, float]


# Weights say how directly a sign speaks of the water at the roots; they are common practice, no source. The
# signs themselves: W-08 (finger), W-09 (soggy too long), W-10 (weight), W-11 (wilt in wet soil), W-12
# (shrunken medium, light pot), W-19 (reservoir), D-03 and D-06 (wilt in wet or dry soil).
_WET_CHOICES = (
    Choice("dryness_before_watering", "watered while the medium is", {"still_wet": 20, "surface_dry": 5}),
    Choice("medium_now", "medium now", {"soggy": 15}),
    Choice("medium_when_drooping", "droops while the medium is", {"wet": 15}),
    Choice("drainage", "drainage", {"none": 12, "cover_pot": 4}),
    Choice("standing_water", "left standing in water:", {"yes": 8}),
    Choice("watering_rule", "watering rule", {"always_moist": 6, "calendar": 3}),
    Choice("reservoir_kept", "reservoir kept", {"always_high": 6}),
    Choice("pot_weight", "pot weight", {"heavy": 5}),
    Choice("fungus_gnats", "fungus gnats:", {"yes": 3}),
)
_DRY_CHOICES = (
    Choice("dryness_before_watering", "before watering the medium is", {"dry_through": 15}),
    Choice("medium_now", "medium now", {"bone_dry": 20}),
    Choice("medium_when_drooping", "droops while the medium is", {"dry": 15}),
    Choice("recovers_after_water", "recovers after water:", {"yes": 15}),
    Choice("pot_weight", "pot weight", {"light": 10}),
    Choice("runs_through", "water runs straight through:", {"yes": 8}),
    Choice("reservoir_kept", "reservoir kept", {"low": 4}),
)
WET_QUESTIONS = tuple(choice.question for choice in _WET_CHOICES)
DRY_QUESTIONS = tuple(choice.question for choice in _DRY_CHOICES)
_RATIO_POINTS = {True: 25.0, False: 12.0}  # by whether the drying time was seen, or only computed
_FEWEST = 2  # one answer alone makes no index


def overwatering_index(given: Given, sums: dict[str, Measure]) -> Measure | None:
    """Return the overwatering index, or None when fewer than two of its parts are known.

    `sums` holds the measures of roots and water computed before it.
    """
    return _index("overwatering_index", [*_choices(given, _WET_CHOICES), *_wet_sums(given, sums)], _WET_MOST)


def drought_index(given: Given, sums: dict[str, Measure]) -> Measure | None:
    """Return the drought index, or None when fewer than two of its parts are known."""
    return _index("drought_index", [*_choices(given, _DRY_CHOICES), *_dry_sums(given, sums)], _DRY_MOST)


def _choices(given: Given, choices: tuple[Choice, ...]) -> Iterator[Component]:
    for choice in choices:
        answer = given.word(choice.question)
        if answer is not None:
            words = f"{choice.words} {answer.replace('_', ' ')}"
            points = choice.points.get(answer, 0)
            yield Component(words, (choice.question,), points, max(choice.points.values()))


def _wet_sums(given: Given, sums: dict[str, Measure]) -> Iterator[Component]:
    ratio, most = _ratio(given, sums)
    if ratio is not None:
        points = most * _between(ratio, 1, 2.5)
        yield Component(
            f"dries in {ratio:.1f} times the watering interval", ("watering_ratio",), points, most
        )
    air = sums.get("air_filled_percent")
    if air is not None:  # wanted: 13 to 30 % (W-01)
        points = 8 * (1 - _between(float(air.value), 5, 13))
        yield Component(f"air in the medium {float(air.value):.0f} %", (air.name,), points, 8)
    share = sums.get("reservoir_share_percent")
    if share is not None:  # a quarter to a third (W-19)
        points = 8 * _between(float(share.value), 33, 60)
        yield Component(f"water line at {float(share.value):.0f} % of the pot", (share.name,), points, 8)


def _dry_sums(given: Given, sums: dict[str, Measure]) -> Iterator[Component]:
    ratio, most = _ratio(given, sums)
    if ratio is not None:
        points = most * (1 - _between(ratio, 0.4, 1))
        yield Component(
            f"dries in {ratio:.1f} times the watering interval", ("watering_ratio",), points, most
        )
    dry, since = sums.get("days_to_dry"), given.number("days_since_watered")
    if dry is not None and since is not None:
        points = 8 * _between(since / float(dry.value), 1, 2)
        words = f"{since:.0f} d since watering, dries in {float(dry.value):.0f} d"
        yield Component(words, ("days_since_watered", dry.name), points, 8)
    vpd = given.number("vpd_kpa")
    if vpd is not None:  # pores close from 1.25 to 1.6 kPa
        yield Component(f"deficit of the air {vpd:.1f} kPa", ("vpd_kpa",), 5 * _between(vpd, 1.25, 2), 5)


_WET_MOST = sum(max(choice.points.values()) for choice in _WET_CHOICES) + _RATIO_POINTS[True] + 8 + 8
_DRY_MOST = sum(max(choice.points.values()) for choice in _DRY_CHOICES) + _RATIO_POINTS[True] + 8 + 5


def _ratio(given: Given, sums: dict[str, Measure]) -> tuple[float | None, float]:
    seen = given.number("dries_in_d") is not None
    ratio = sums.get("watering_ratio")
    return (None if ratio is None else float(ratio.value)), _RATIO_POINTS[seen]


def _index(name: str, parts: list[Component], most: float) -> Measure | None:
    if len(parts) < _FEWEST:
        return None
    total = sum(part.points for part in parts)
    unknown = max(0.0, most - sum(part.most for part in parts))
    told = sorted(parts, key=lambda part: -part.points)
    return Measure(
        name,
        min(100.0, total),
        tuple(dict.fromkeys(answer for part in told for answer in part.used)),
        low=min(100.0, total),
        high=min(100.0, total + unknown),
        remark="; ".join(f"{part.words}: {part.points:.0f} of {part.most:.0f}" for part in told),
    )


def _between(value: float, start: float, end: float) -> float:
    """Return 0 up to `start`, 1 from `end` on, and a straight line between."""
    return min(1.0, max(0.0, (value - start) / (end - start)))
