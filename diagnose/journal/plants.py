"""Plants, the places where they stand, their photos and what happened to them."""

import datetime as dt
import sqlite3
from typing import Any

from diagnose.case import EVENT_KINDS, Event, Place
from diagnose.journal.open import Journal
from diagnose.journal.records import EventRecord, PhotoRecord, PlaceRecord, PlantRecord
from diagnose.language import _, numeral, quoted
from diagnose.problems import BadInputError, Problem, nearest, shown

_PLANT = """
SELECT p.id, p.name, p.kind, p.profile, coalesce(s.label, '') AS place, p.pot_cm, p.medium, p.note, p.gone_on
FROM plants p LEFT JOIN places s ON s.id = p.place_id"""
WIDEST_POT_CM = 200.0
"""Wider than any pot that stands indoors (common practice, no source)."""
LONGEST_TEXT = 2000
"""As `diagnose.case.Text`."""
_PLACE = ("label", "city", "country", "latitude", "longitude", "elevation_m")
_COLUMNS = ("name", "kind", "profile", "pot_cm", "medium", "note", "gone_on")


def all_plants(journal: Journal, *, gone_too: bool = False) -> tuple[PlantRecord, ...]:
    """Return the plants of the collection, by place and name."""
    where = "" if gone_too else " WHERE p.gone_on IS NULL"
    rows = journal.rows(f"{_PLANT}{where} ORDER BY place, p.name")
    return tuple(_plant(row) for row in rows)


def find_plant(journal: Journal, name: str) -> PlantRecord:
    """Return the plant of this name, whatever the case of its letters.

    Raises:
        BadInputError: there is none; names the nearest.

    """
    rows = journal.rows(f"{_PLANT} WHERE p.name = ?", (name,)) or journal.rows(
        f"{_PLANT} WHERE p.name = ? COLLATE NOCASE", (name,)
    )
    if len(rows) != 1:
        known = [row["name"] for row in journal.rows("SELECT name FROM plants")]
        mend = nearest(name, known) or _("'diagnose plants' lists them, 'diagnose journal add' adds one")
        expected = _("the name of a plant in the journal")
        raise BadInputError([Problem(None, None, _("plant"), shown(name), expected, mend)])
    return _plant(rows[0])


def plant_by_id(journal: Journal, plant_id: int) -> PlantRecord:
    """Return the plant with this id."""
    return _plant(journal.rows(f"{_PLANT} WHERE p.id = ?", (plant_id,))[0])


def add_plant(journal: Journal, name: str, *, place: str = "", **told: Any) -> PlantRecord:
    """Add a plant; the other fields are those of `PlantRecord`.

    Raises:
        BadInputError: there is a plant of this name, or it has none.

    """
    with journal.writing() as db:
        name = _free_name(db, name)
        plant_id = db.execute("INSERT INTO plants (name) VALUES (?)", (name,)).lastrowid or 0
        return change_plant(journal, plant_by_id(journal, plant_id), place=place, **told)


def change_plant(
    journal: Journal, plant: PlantRecord, *, place: str | None = None, **told: Any
) -> PlantRecord:
    """Change what is known of a plant; only the fields given are touched.

    Raises:
        BadInputError: another plant has the new name, or the pot is not 0 to 200 cm wide.

    """
    unknown = set(told) - set(_COLUMNS)
    if unknown:
        raise ValueError(f"no such field of a plant: {sorted(unknown)}")
    with journal.writing() as db:
        for column, value in told.items():
            kept = _free_name(db, value, plant.id) if column == "name" else _column(column, value)
            db.execute(f"UPDATE plants SET {column} = ? WHERE id = ?", (kept, plant.id))
        if place is not None:
            label = clean(place, "place")
            if label:
                db.execute("INSERT OR IGNORE INTO places (label) VALUES (?)", (label,))
            db.execute(
                "UPDATE plants SET place_id = (SELECT id FROM places WHERE label = ?) WHERE id = ?",
                (label, plant.id),
            )
    return plant_by_id(journal, plant.id)


def _free_name(db: sqlite3.Connection, name: str, own: int = 0) -> str:
    """Return a name as it can be kept, if no other plant has it."""
    name = clean(name, "name")
    if not name:
        raise BadInputError(
            [Problem(None, None, _("name"), _("no name"), _("a name of its own for each plant"))]
        )
    if db.execute("SELECT 1 FROM plants WHERE name = ? COLLATE NOCASE AND id <> ?", (name, own)).fetchone():
        found = _("a second plant called {name}").format(name=quoted(name))
        raise BadInputError(
            [Problem(None, None, _("name"), found, _("a name of its own"), _("add a number"))]
        )
    return name


def _column(column: str, value: Any) -> Any:
    if isinstance(value, str):
        text = clean(value, column)
        return None if column == "profile" and not text else text
    if column == "pot_cm" and value is not None and not 0 < value <= WIDEST_POT_CM:
        expected = _("a width above 0 and up to {most} cm").format(most=numeral(WIDEST_POT_CM, "g"))
        raise BadInputError([Problem(None, None, _("pot"), f"{numeral(value, 'g')} cm", expected)])
    return value.isoformat() if isinstance(value, dt.date) else value


def places(journal: Journal) -> tuple[PlaceRecord, ...]:
    """Return every place with what is known of where it is, by label."""
    rows = journal.rows(f"SELECT id, {', '.join(_PLACE)} FROM places ORDER BY label")
    return tuple(
        PlaceRecord(row["id"], Place(**dict(zip(_PLACE, tuple(row)[1:], strict=True)))) for row in rows
    )


def locate_place(journal: Journal, place: Place) -> None:
    """Say where a place is, a new one if there is none of its label; where it was said to be is replaced.

    Raises:
        BadInputError: it has no label.

    """
    if not place.label.strip():
        raise BadInputError(
            [Problem(None, None, _("place"), _("no name"), _("a name, such as 'east window'"))]
        )
    with journal.writing() as db:
        db.execute(
            """INSERT INTO places (label, city, country, latitude, longitude, elevation_m) VALUES (?, ?, ?, ?, ?, ?)
               ON CONFLICT (label) DO UPDATE SET city = excluded.city, country = excluded.country,
               latitude = excluded.latitude, longitude = excluded.longitude, elevation_m = excluded.elevation_m""",
            (
                clean(place.label, "place"),
                place.city or None,
                place.country,
                place.latitude,
                place.longitude,
                place.elevation_m,
            ),
        )


def add_photo(journal: Journal, plant_id: int, date: dt.date, path: str, note: str = "") -> None:
    """Note that a photo of a plant lies at a path; it is not copied."""
    with journal.writing() as db:
        db.execute(
            "INSERT INTO photos (plant_id, date, path, note) VALUES (?, ?, ?, ?)",
            (plant_id, date.isoformat(), clean(path, "path"), clean(note, "note")),
        )


def photos(journal: Journal, plant_id: int) -> tuple[PhotoRecord, ...]:
    """Return a plant's photos, earliest first."""
    rows = journal.rows(
        "SELECT id, plant_id, date, path, note FROM photos WHERE plant_id = ? ORDER BY date, id", (plant_id,)
    )
    return tuple(
        PhotoRecord(r["id"], r["plant_id"], dt.date.fromisoformat(r["date"]), r["path"], r["note"])
        for r in rows
    )


def add_event(journal: Journal, plant_id: int, event: Event) -> None:
    """Note what happened to a plant; the same thing on the same day is noted once."""
    with journal.writing() as db:
        note = clean(event.note, "note")
        told = (plant_id, event.date.isoformat(), event.kind, note)
        held = db.execute(
            "SELECT 1 FROM events WHERE plant_id = ? AND date = ? AND kind = ? AND note = ? AND replaced = 0",
            told,
        ).fetchone()
        if not held:
            db.execute("INSERT INTO events (plant_id, date, kind, note) VALUES (?, ?, ?, ?)", told)


def events(journal: Journal, plant_id: int | None = None) -> tuple[EventRecord, ...]:
    """Return the events of a plant (of all plants if none is named), earliest first."""
    where, values = ("", ()) if plant_id is None else (" AND plant_id = ?", (plant_id,))
    rows = journal.rows(
        f"SELECT id, plant_id, date, kind, note FROM events WHERE replaced = 0{where} ORDER BY date, id",
        values,
    )
    return tuple(
        EventRecord(r["id"], r["plant_id"], dt.date.fromisoformat(r["date"]), r["kind"], r["note"])
        for r in rows
    )


def read_event_kind(word: str) -> str:
    """Return the kind of event a word names.

    Raises:
        BadInputError: there is none.

    """
    kind = word.strip().lower().replace(" ", "_").replace("-", "_")
    if kind not in EVENT_KINDS:
        expected = _("one of {known}").format(known=", ".join(EVENT_KINDS))
        raise BadInputError(
            [Problem(None, None, _("event"), shown(word), expected, nearest(kind, EVENT_KINDS))]
        )
    return kind


def clean(text: str, field: str) -> str:
    """Return text as it can be kept: no blanks around it, nothing that UTF-8 cannot say.

    Raises:
        BadInputError: it holds half characters (surrogates) or a NUL, or is too long for a case.

    """
    try:
        text.encode()
    except UnicodeEncodeError:
        raise BadInputError([Problem(None, None, field, shown(text), _("text that UTF-8 can say"))]) from None
    if "\x00" in text:
        raise BadInputError([Problem(None, None, field, shown(text), _("text without NUL characters"))])
    if len(text) > LONGEST_TEXT:
        found = _("{count} characters").format(count=numeral(len(text), ",d"))
        expected = _("at most {count}").format(count=numeral(LONGEST_TEXT, ",d"))
        raise BadInputError([Problem(None, None, field, found, expected)])
    return text.strip()


def _plant(row: Any) -> PlantRecord:
    values = dict(row)
    gone = values.pop("gone_on")
    return PlantRecord(**values, gone_on=dt.date.fromisoformat(gone) if gone else None)
