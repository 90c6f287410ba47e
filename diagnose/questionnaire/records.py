"""Typed places and plants: answers that are a part of the case itself."""

import re
from collections.abc import Mapping

from diagnose.case import Place, Plant
from diagnose.language import _, numeral, quoted
from diagnose.measures.places import find_city
from diagnose.problems import BadInputError, nearest
from diagnose.questionnaire.typed import TypedError
from diagnose.rulebase.model import PlantProfile

_DEGREES = r"[+-]?\d+(?:[.,]\d+)?"


def known_place(text: str) -> tuple[Place, str]:
    """Return the place a text names and, in words, where that was found to be.

    Raises:
        TypedError: there is no such town, or the numbers are no latitude and longitude.

    """
    place = _coordinates_or_town(text)
    if place.latitude is not None:
        return place, ""
    name, _comma, country = (place.city or "").partition(",")
    code = country.strip().upper()
    try:
        spot = find_city(name.strip(), code if len(code) == 2 else None)
    except BadInputError as error:
        mend = error.problems[0].mend
        said = _("No town of more than 15,000 people is called so; {mend}").format(mend=mend)
        raise TypedError(said if said.endswith("?") else f"{said}.") from None
    found = Place(city=name.strip(), country=code if len(code) == 2 else None)
    north = (
        _("{town}, {degrees} degrees north") if spot.latitude >= 0 else _("{town}, {degrees} degrees south")
    )
    return found, north.format(town=spot.label, degrees=numeral(abs(spot.latitude), ".1f"))


def read_plant(text: str, plant: Plant, profiles: Mapping[str, PlantProfile]) -> Plant:
    """Return the plant with the profile a text names, by its id or its name.

    Raises:
        TypedError: no profile is called so.

    """
    word = text.strip().casefold()
    by_name = {profile.name.casefold(): name for name, profile in profiles.items()}
    found = by_name.get(word, word.replace(" ", "_"))
    if found not in profiles:
        hint = nearest(found, profiles)
        said = (
            _("No profile is called {text} - {hint}. Known: {names}.")
            if hint
            else _("No profile is called {text}. Known: {names}.")
        )
        raise TypedError(said.format(text=quoted(text), hint=hint, names=", ".join(profiles)))
    return plant.model_copy(update={"profile": found})


def _coordinates_or_town(text: str) -> Place:
    """Return the place a text names: a town, or latitude and longitude in degrees, north and east positive.

    Raises:
        TypedError: two numbers that are no latitude and longitude.

    """
    match = re.fullmatch(rf"\s*({_DEGREES})\s*[;,\s]\s*({_DEGREES})\s*", text)
    if match is None:
        return Place(city=text.strip())
    latitude, longitude = (float(degrees.replace(",", ".")) for degrees in match.groups())
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        raise TypedError(_("Please give a latitude from -90 to 90 and a longitude from -180 to 180."))
    return Place(latitude=latitude, longitude=longitude)
