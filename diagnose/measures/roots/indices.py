"""Overwatering and drought as indices: a sum of listed points, 0 to 100."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.language import _, marked, numeral, pgettext
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
    """With a gap for the answer."""
    points: dict[str, float]


# Weights say how directly a sign speaks of the water at the roots; they are common practice, no source. The
# signs themselves: W-08 (finger), W-09 (soggy too long), W-10 (weight), W-11 (wilt in wet soil), W-12
# (shrunken medium, light pot), W-19 (reservoir), D-03 and D-06 (wilt in wet or dry soil).
_WET_CHOICES = (
    Choice(
        "dryness_before_watering",
        marked("watered while the medium is {answer}"),
        {"still_wet": 20, "surface_dry": 5},
    ),
    Choice("medium_now", marked("medium now {answer}"), {"soggy": 15}),
    Choice("medium_when_drooping", marked("droops while the medium is {answer}"), {"wet": 15}),
    Choice("drainage", marked("drainage {answer}"), {"none": 12, "cover_pot": 4}),
    Choice("standing_water", marked("left standing in water: {answer}"), {"yes": 8}),
    Choice("watering_rule", marked("watering rule {answer}"), {"always_moist": 6, "calendar": 3}),
    Choice("reservoir_kept", marked("reservoir kept {answer}"), {"always_high": 6}),
    Choice("pot_weight", marked("pot weight {answer}"), {"heavy": 5}),
    Choice("fungus_gnats", marked("fungus gnats: {answer}"), {"yes": 3}),
)
_DRY_CHOICES = (
    Choice("dryness_before_watering", marked("before watering the medium is {answer}"), {"dry_through": 15}),
    Choice("medium_now", marked("medium now {answer}"), {"bone_dry": 20}),
    Choice("medium_when_drooping", marked("droops while the medium is {answer}"), {"dry": 15}),
    Choice("recovers_after_water", marked("recovers after water: {answer}"), {"yes": 15}),
    Choice("pot_weight", marked("pot weight {answer}"), {"light": 10}),
    Choice("runs_through", marked("water runs straight through: {answer}"), {"yes": 8}),
    Choice("reservoir_kept", marked("reservoir kept {answer}"), {"low": 4}),
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
    said = _answers_said()
    for choice in choices:
        answer = given.word(choice.question)
        if answer is not None:
            words = _(choice.words).format(answer=said.get(answer, answer.replace("_", " ")))
            points = choice.points.get(answer, 0)
            yield Component(words, (choice.question,), points, max(choice.points.values()))


def _wet_sums(given: Given, sums: dict[str, Measure]) -> Iterator[Component]:
    ratio, most = _ratio(given, sums)
    if ratio is not None:
        points = most * _between(ratio, 1, 2.5)
        yield Component(_dries_in(ratio), ("watering_ratio",), points, most)
    air = sums.get("air_filled_percent")
    if air is not None:  # wanted: 13 to 30 % (W-01)
        points = 8 * (1 - _between(float(air.value), 5, 13))
        words = _("air in the medium {percent} %").format(percent=numeral(float(air.value), ".0f"))
        yield Component(words, (air.name,), points, 8)
    share = sums.get("reservoir_share_percent")
    if share is not None:  # a quarter to a third (W-19)
        points = 8 * _between(float(share.value), 33, 60)
        words = _("water line at {percent} % of the pot").format(percent=numeral(float(share.value), ".0f"))
        yield Component(words, (share.name,), points, 8)


def _dry_sums(given: Given, sums: dict[str, Measure]) -> Iterator[Component]:
    ratio, most = _ratio(given, sums)
    if ratio is not None:
        points = most * (1 - _between(ratio, 0.4, 1))
        yield Component(_dries_in(ratio), ("watering_ratio",), points, most)
    dry, since = sums.get("days_to_dry"), given.number("days_since_watered")
    if dry is not None and since is not None:
        points = 8 * _between(since / float(dry.value), 1, 2)
        words = _("{since} d since watering, dries in {days} d").format(
            since=numeral(since, ".0f"), days=numeral(float(dry.value), ".0f")
        )
        yield Component(words, ("days_since_watered", dry.name), points, 8)
    vpd = given.number("vpd_kpa")
    if vpd is not None:  # pores close from 1.25 to 1.6 kPa
        words = _("deficit of the air {kpa} kPa").format(kpa=numeral(vpd, ".1f"))
        yield Component(words, ("vpd_kpa",), 5 * _between(vpd, 1.25, 2), 5)


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
        remark="; ".join(
            _("{part}: {points} of {most}").format(
                part=part.words, points=numeral(part.points, ".0f"), most=numeral(part.most, ".0f")
            )
            for part in told
        ),
    )


def _between(value: float, start: float, end: float) -> float:
    """Return 0 up to `start`, 1 from `end` on, and a straight line between."""
    return min(1.0, max(0.0, (value - start) / (end - start)))


def _dries_in(ratio: float) -> str:
    return _("dries in {ratio} times the watering interval").format(ratio=numeral(ratio, ".1f"))


def _answers_said() -> dict[str, str]:
    return {
        "yes": pgettext("an answer about water", "yes"),
        "no": pgettext("an answer about water", "no"),
        "none": pgettext("an answer about water", "none"),
        "free": pgettext("an answer about water", "free"),
        "cover_pot": pgettext("an answer about water", "cover pot"),
        "bone_dry": pgettext("an answer about water", "bone dry"),
        "dry_through": pgettext("an answer about water", "dry through"),
        "top_dry": pgettext("an answer about water", "top dry"),
        "surface_dry": pgettext("an answer about water", "surface dry"),
        "dry": pgettext("an answer about water", "dry"),
        "moist": pgettext("an answer about water", "moist"),
        "wet": pgettext("an answer about water", "wet"),
        "still_wet": pgettext("an answer about water", "still wet"),
        "soggy": pgettext("an answer about water", "soggy"),
        "calendar": pgettext("an answer about water", "calendar"),
        "pot_light": pgettext("an answer about water", "pot light"),
        "always_moist": pgettext("an answer about water", "always moist"),
        "reservoir": pgettext("an answer about water", "reservoir"),
        "dries_between": pgettext("an answer about water", "dries between"),
        "low": pgettext("an answer about water", "low"),
        "always_high": pgettext("an answer about water", "always high"),
        "light": pgettext("an answer about water", "light"),
        "middling": pgettext("an answer about water", "middling"),
        "heavy": pgettext("an answer about water", "heavy"),
    }
