"""Typed places and plants: answers that are a part of the case itself."""

from collections.abc import Sequence

from diagnose.case import Place, Plant
from diagnose.measures.places import find_city
from diagnose.problems import BadInputError, nearest
from diagnose.questionnaire.typed import TypedError


def known_place(text: str) -> tuple[Place, str]:
    """Return the place a text names and, in words, where that was found to be.

    Raises:
        TypedError: there is no such town, or the numbers are no latitude and longitude.

    """
    place = _coordinates_or_town(text)
    if place.latitude is not None:
        return place, ""
    name, _, country = (place.city or "").partition(",")
    code = country.strip().upper()
    try:
        spot = find_city(name.strip(), code if len(code) == 2 else None)
    except BadInputError as error:
        mend = error.problems[0].mend
        raise TypedError(f"No town of more than 15,000 people is called so; {mend}.") from None
    side = "north" if spot.latitude >= 0 else "south"
    found = Place(city=name.strip(), country=code if len(code) == 2 else None)
    return found, f"{spot.label}, {abs(spot.latitude):.1f} degrees {side}"


def read_plant(text: str, plant: Plant, profiles: Sequence[str]) -> Plant:
    """Return the plant with the profile a text names.

    Raises:
        TypedError: no profile is called so.

    """
    word = text.strip().lower().replace(" ", "_")
    if word not in profiles:
        hint = nearest(word, profiles)
        raise TypedError(
            f"No profile is called {text!r}{' - ' + hint if hint else ''}. Known: {', '.join(profiles)}."
        )
    return plant.model_copy(update={"profile": word})


def _coordinates_or_town(text: str) -> Place:
    """Return the place a text names: a town, or latitude and longitude in degrees, north and east positive.

    Raises:
        TypedError: two numbers that are no latitude and longitude.

    """
    parts = text.replace(",", " ").split()
    try:
        latitude, longitude = (float(part) for part in parts)
    except ValueError:
        return Place(city=text.strip())
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        raise TypedError("Please give a latitude from -90 to 90 and a longitude from -180 to 180.")
    return Place(latitude=latitude, longitude=longitude)
