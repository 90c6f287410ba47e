"""`diagnose journal add|change|event|photo|place`: what is told about plants and places."""

import datetime as dt
from pathlib import Path
from typing import Any

from diagnose.case import Event
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.journal import plants
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire.dates import read_date
from diagnose.questionnaire.records import known_place
from diagnose.questionnaire.typed import TypedError

_FIELDS = ("kind", "profile", "pot_cm", "medium", "note")


def add(journal: Path | None, name: str, **told: Any) -> int:
    """Add a plant."""
    _check_profile(told)
    with opened(journal) as book:
        plant = plants.add_plant(book, name, place=told.pop("place") or "", **_given(told))
    data(f"Added {plant.name}.")
    return Exit.DONE


def change(journal: Path | None, name: str, *, gone: str | None, new_name: str | None, **told: Any) -> int:
    """Change what is known of a plant; a change of place is also noted as a move."""
    day = today()
    _check_profile(told)
    with opened(journal) as book:
        plant, place = plants.find_plant(book, name), told.pop("place")
        fields = _given(told)
        if gone:
            fields["gone_on"] = read_day(gone, "--gone")
        if new_name:
            fields["name"] = new_name
        plants.change_plant(book, plant, place=place, **fields)
        if place is not None and place != plant.place and plant.place:
            plants.add_event(book, plant.id, Event(date=day, kind="moved", note=f"to {place}"))
    data(f"Changed {plant.name}.")
    return Exit.DONE


def event(
    journal: Path | None, names: list[str], kind: str, *, date: str, note: str, place: str | None
) -> int:
    """Note what happened to plants, or to all plants of a place."""
    day, word = read_day(date, "--date"), plants.read_event_kind(kind)
    note = plants.clean(note, "--note")
    with opened(journal) as book:
        chosen = [plants.find_plant(book, name) for name in names]
        if place is not None:
            chosen += [plant for plant in plants.all_plants(book) if plant.place.lower() == place.lower()]
        if not chosen:
            expected = "names of plants, or --place with plants at it"
            raise BadInputError([Problem(None, None, "PLANT", "no plants", expected)])
        for plant in chosen:
            plants.add_event(book, plant.id, Event.model_validate({"date": day, "kind": word, "note": note}))
    data(
        f"Noted for {len(chosen)} {'plant' if len(chosen) == 1 else 'plants'}: {word.replace('_', ' ')} on {day}."
    )
    return Exit.DONE


def photo(journal: Path | None, name: str, file: Path, *, date: str, note: str) -> int:
    """Note where a photo lies."""
    if not file.is_file():
        raise BadInputError([Problem(str(file), None, "", "no such file", "a photo")])
    with opened(journal) as book:
        plants.add_photo(
            book, plants.find_plant(book, name).id, read_day(date, "--date"), str(file.resolve()), note
        )
    data(f"Noted for {name}: {file}.")
    return Exit.DONE


def place(journal: Path | None, label: str, where: str) -> int:
    """Say where a place is."""
    try:
        found, said = known_place(where)
    except TypedError as error:
        raise BadInputError(
            [Problem(None, None, "--at", shown(where), "a town or two numbers", str(error))]
        ) from None
    with opened(journal) as book:
        plants.locate_place(book, found.model_copy(update={"label": label}))
    data(f"{label}: {said or where}.")
    return Exit.DONE


def read_day(text: str, option: str) -> dt.date:
    """Return the day a text means.

    Raises:
        BadInputError: it means none, or one that lies ahead.

    """
    day = today()
    found = read_date(text, day)
    if found is None or found > day:
        expected = f"a date not after {day}, such as 2026-03-01 or '3 weeks ago'"
        raise BadInputError([Problem(None, None, option, shown(text), expected)])
    return found


def _check_profile(told: dict[str, Any]) -> None:
    """Refuse a profile that no rules have; the rules are only read if one is given."""
    profile = told["profile"]
    if not profile:
        return
    from diagnose.diagnosis import read_rules

    known = read_rules(()).plants
    if profile not in known:
        mend = nearest(profile, known) or "see 'diagnose rules list plant'"
        raise BadInputError(
            [Problem(None, None, "--profile", shown(profile), "the id of a plant profile", mend)]
        )


def _given(told: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in told.items() if name in _FIELDS and value is not None}
