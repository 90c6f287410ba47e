"""`diagnose journal add|change|event|photo|place`: what is told about plants and places."""

import difflib
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from diagnose.case import Event
from diagnose.command.journal.days import read_day
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, RefusedError, data
from diagnose.journal import Journal, plants
from diagnose.language import _, ngettext, quoted
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire.records import known_place
from diagnose.questionnaire.typed import TypedError
from diagnose.report.words import event_said
from diagnose.rulebase.model import PlantProfile

_SLIP = 0.8
"""How alike two words are, of 1, that one is taken for a slip of the other (common practice, no source)."""
_FIELDS = ("kind", "profile", "pot_cm", "medium", "note")


def add(journal: Path | None, name: str, *, insist: bool, **told: Any) -> int:
    """Add a plant."""
    _check_profile(told["profile"])
    with opened(journal) as book:
        _check_kind(book, told["kind"], insist=insist)
        plant = plants.add_plant(book, name, place=told.pop("place") or "", **_given(told))
    data(_("Added {plant}.").format(plant=plant.name))
    return Exit.DONE


def change(
    journal: Path | None, name: str, *, gone: str | None, new_name: str | None, insist: bool, **told: Any
) -> int:
    """Change what is known of a plant; a change of place is also noted as a move."""
    day = today()
    _check_profile(told["profile"])
    with opened(journal) as book:
        _check_kind(book, told["kind"], insist=insist)
        plant, place = plants.find_plant(book, name), told.pop("place")
        fields = _given(told)
        if gone:
            fields["gone_on"] = read_day(gone, "--gone")
        if new_name:
            fields["name"] = new_name
        plants.change_plant(book, plant, place=place, **fields)
        if place is not None and place != plant.place and plant.place:
            plants.add_event(
                book, plant.id, Event(date=day, kind="moved", note=_("to {place}").format(place=place))
            )
    data(_("Changed {plant}.").format(plant=plant.name))
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
            expected = _("names of plants, or --place with plants at it")
            raise BadInputError([Problem(None, None, _("PLANT"), _("no plants"), expected)])
        for plant in chosen:
            plants.add_event(book, plant.id, Event.model_validate({"date": day, "kind": word, "note": note}))
    said = ngettext(
        "Noted for {count} plant: {what} on {day}.", "Noted for {count} plants: {what} on {day}.", len(chosen)
    )
    data(said.format(count=len(chosen), what=event_said(word), day=day))
    return Exit.DONE


def photo(journal: Path | None, name: str, file: Path, *, date: str, note: str) -> int:
    """Note where a photo lies."""
    if not file.is_file():
        raise BadInputError([Problem(str(file), None, "", _("no such file"), _("a photo"))])
    with opened(journal) as book:
        plants.add_photo(
            book, plants.find_plant(book, name).id, read_day(date, "--date"), str(file.resolve()), note
        )
    data(_("Noted for {plant}: {file}.").format(plant=name, file=file))
    return Exit.DONE


def place(journal: Path | None, label: str, where: str) -> int:
    """Say where a place is."""
    try:
        found, said = known_place(where)
    except TypedError as error:
        raise RefusedError(f"--at {where}: {error}") from None
    with opened(journal) as book:
        plants.locate_place(book, found.model_copy(update={"label": label}))
    data(f"{label}: {said or where}.")
    return Exit.DONE


def _check_profile(profile: str | None) -> None:
    """Refuse a profile that no rules have; the rules are only read if one is given."""
    if not profile:
        return
    known = _profiles()
    if profile not in known:
        mend = nearest(profile, known) or _("see 'diagnose rules list plant'")
        raise BadInputError(
            [Problem(None, None, "--profile", shown(profile), _("the id of a plant profile"), mend)]
        )


def _check_kind(book: Journal, kind: str | None, *, insist: bool) -> None:
    """Refuse a kind that looks like a slip for one the journal or the rules know, unless the grower insists."""
    if not kind or insist:
        return
    kinds = {plant.kind for plant in plants.all_plants(book, gone_too=True) if plant.kind}
    if _among(kind, kinds):
        return
    profiles = _profiles()
    known = {*kinds, *profiles, *(genus for profile in profiles.values() for genus in profile.genera)}
    if _among(kind, {*known, *(profile.name for profile in profiles.values())}):
        return
    like = {one.casefold(): one for one in known}
    close = difflib.get_close_matches(kind.casefold(), like, n=1, cutoff=_SLIP)
    if close:
        mend = _("to keep it as it is, add {option}").format(option="--insist")
        expected = _("a kind that is known, such as {kind}").format(kind=quoted(like[close[0]]))
        raise BadInputError([Problem(None, None, "--kind", shown(kind), expected, mend)])


def _among(kind: str, known: Iterable[str]) -> bool:
    return kind.casefold() in {one.casefold() for one in known}


def _profiles() -> Mapping[str, PlantProfile]:
    from diagnose.diagnosis import read_rules

    return read_rules(()).plants


def _given(told: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in told.items() if name in _FIELDS and value is not None}
