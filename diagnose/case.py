"""What the grower told us about one plant at one date: the Case and its parts.

Every field but the date may be missing; a missing answer is unknown, and unknown is never evidence.
"""

import datetime as dt
from typing import Annotated, Literal, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticKnownError

FORMAT: Literal[1] = 1

EventKind = Literal[
    "brought_home", "moved", "repotted", "medium_changed", "fed", "treated", "heating_on", "other"
]
EVENT_KINDS: tuple[str, ...] = get_args(EventKind)
LeafPosition = Literal["oldest", "middle", "newest"]
Text = Annotated[str, Field(max_length=2000)]


def _no_seconds(value: object) -> object:
    """Refuse a bare number, which the model's library would take for seconds since 1970."""
    if isinstance(value, int | float) or (isinstance(value, str) and "-" not in value):
        raise PydanticKnownError("date_type")
    return value


Day = Annotated[dt.date, BeforeValidator(_no_seconds)]
AnswerValue = bool | int | float | dt.date | Text | tuple[Text, ...]
"""A choice's id, yes/no, a number in the question's unit, a date, or several choices' ids."""


class Record(BaseModel):
    """A frozen record that refuses fields it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Plant(Record):
    """The plant: its name, the kind as the grower calls it, and the profile it is judged by."""

    name: Text = ""
    kind: Text = ""
    profile: Text | None = None


class Place(Record):
    """Where the plant stands; latitude and longitude in degrees, north and east positive."""

    label: Text = ""
    city: Text | None = None
    country: Annotated[str, Field(pattern="^[A-Z]{2}$")] | None = None
    latitude: Annotated[float, Field(ge=-90, le=90)] | None = None
    longitude: Annotated[float, Field(ge=-180, le=180)] | None = None
    elevation_m: Annotated[float, Field(ge=-430, le=6000)] | None = None

    @property
    def is_southern(self) -> bool:
        """Whether it is known to lie south of the equator; the words for seasons are read by it."""
        return self.latitude is not None and self.latitude < 0


class LeafCount(Record):
    """One dated count: leaves present, and leaves opened and lost since the count before."""

    date: Day
    present: Annotated[int, Field(ge=0, le=5000)]
    new: Annotated[int, Field(ge=0, le=1000)] | None = None
    lost: Annotated[int, Field(ge=0, le=1000)] | None = None
    lost_which: LeafPosition | None = None


class Leaf(Record):
    """One leaf followed by its grower; unknown opening or no loss yet are both legal."""

    opened: Day | None = None
    lost: Day | None = None


class Event(Record):
    """Something dated that happened to the plant."""

    date: Day
    kind: EventKind
    note: Text = ""


class Case(Record):
    """One plant's problem at one date."""

    format: Literal[1] = FORMAT
    date: Day
    title: Text = ""
    story: Text = ""
    plant: Plant = Plant()
    place: Place = Place()
    leaf_history: tuple[LeafCount, ...] = ()
    leaves: tuple[Leaf, ...] = ()
    events: tuple[Event, ...] = ()
    answers: dict[str, AnswerValue] = {}
    not_known: tuple[Text, ...] = ()
    """Ids of questions that were asked and whose answer the grower does not know."""
    from_journal: dict[str, AnswerValue] = {}
    """What the journal knows of questions that the grower need not be asked; the grower's own answers come first."""
    expect: tuple[Text, ...] = ()
    """Demo cases only: the cause ids that should come first, in order."""

    def days_since(self, date: dt.date) -> int:
        """Return the days from `date` to the case's date."""
        return (self.date - date).days

    def latest(self, kind: str) -> dt.date | None:
        """Return the date of the latest event of this kind that is not after the case's date."""
        return max((e.date for e in self.events if e.kind == kind and e.date <= self.date), default=None)
