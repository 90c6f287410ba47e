"""What a rule file may hold: questions, findings, evidence, causes, plants, advice. Shapes only, no behaviour."""

from typing import Annotated, Literal, Self, get_args

from pydantic import Field, model_validator

from diagnose.case import EventKind
from diagnose.language import _
from diagnose.measures.needs import PlantNeeds
from diagnose.rulebase.conditions import Condition, FactName, Number, Strict, Word

Sentence = Annotated[str, Field(min_length=3, max_length=1200)]
Label = Annotated[str, Field(min_length=1, max_length=120)]
Origin = Annotated[str, Field(min_length=3, max_length=200)]
"""A source's id, `common practice`, `from memory` or, in house rules, the grower's own words."""
Origins = Origin | Annotated[tuple[Origin, ...], Field(min_length=1)]

Effort = Literal["think", "look", "touch", "unpot", "wait"]
EFFORTS: tuple[str, ...] = get_args(Effort)
QuestionKind = Literal[
    "choice", "several", "yes_no", "number", "date", "leaf_history", "place", "plant_profile"
]
RECORD_KINDS = ("leaf_history", "place", "plant_profile")
Strength = Literal["slight", "moderate", "substantial", "strong", "very_strong", "decisive"]
Speaks = Literal["for", "against"]
Pace = Literal["in_turn", "at_once", "beside"]
Facts = dict[FactName, Word | Number]


class Entry(Strict):
    """Anything with an id that a house file may override (`override = true`) or switch off."""

    id: Word
    override: bool = False


class Subject(Entry):
    """A heading of the questionnaire; subjects are asked in the order of `order`, then of files."""

    name: Label
    order: int = 100


class Choice(Strict):
    """One possible answer. `share`: how often growers give it, for what to ask next (equal shares if none is told)."""

    id: Word
    label: Label
    """Lower case, so that it fits inside a sentence."""
    help: str = ""
    share: Annotated[float, Field(gt=0, le=1)] | None = None


class Question(Entry):
    """One thing to ask, with help on how to look. Its answer is the fact of the same name.

    `several` gives one yes/no fact a choice, named `question.choice`; `date` gives days before the case's date.
    """

    subject: Word
    text: Sentence
    help: Sentence
    """How to look, and what to look for."""
    why: Sentence
    """Why it is asked."""
    kind: QuestionKind
    effort: Effort
    unit: str = ""
    least: Number | None = None
    most: Number | None = None
    choices: tuple[Choice, ...] = ()
    share_yes: Annotated[float, Field(gt=0, lt=1)] = 0.5
    typical: tuple[Number, ...] = ()
    """Numbers and dates (days ago): answers to try when weighing whether to ask."""
    event: EventKind | None = None
    """A date question is also answered by the latest event of this kind."""
    ask_when: Condition | None = None
    """Asked unless this is known to be false."""
    skip_because: str = ""
    caution: tuple[Word, ...] = ()

    @model_validator(mode="after")
    def _fits_kind(self) -> Self:
        with_choices = self.kind in ("choice", "several")
        if with_choices and len(self.choices) < 2:
            raise ValueError(_("at least two choices for a question of this kind"))
        if not with_choices and self.choices:
            raise ValueError(_("no choices for a question of this kind"))
        ids = [choice.id for choice in self.choices]
        if len(set(ids)) < len(ids):
            raise ValueError(_("every choice's id only once"))
        if self.kind == "number" and (self.least is None or self.most is None or not self.unit):
            raise ValueError(_("unit, least and most for a question of this kind"))
        if self.least is not None and self.most is not None and self.least >= self.most:
            raise ValueError(_("least below most"))
        if (self.ask_when is None) != (not self.skip_because):
            raise ValueError(
                _("{one} and {other} together or neither").format(one="ask_when", other="skip_because")
            )
        return self


class Finding(Entry):
    """A conclusion that rules may draw and other rules may use."""

    text: Sentence
    """Said in chains of reasons, e.g. "light at this spot is below what the plant needs"."""


class _Worked(Entry):
    """What rules of both kinds share: a condition, its sentence, its origin and worked examples."""

    when: Condition
    because: Sentence
    """`{fact_name}` is filled with the fact's value; nothing else is."""
    origin: Origins
    disputed: str = ""
    """Where sources disagree: who says what."""
    fires: Annotated[tuple[Facts, ...], Field(min_length=1)]
    silent: Annotated[tuple[Facts, ...], Field(min_length=1)]


class Rule(_Worked):
    """Facts or findings -> a finding."""

    gives: Word


class Evidence(_Worked):
    """Facts or findings -> evidence for or against a cause.

    `otherwise`: the strength with which the opposite is said when the condition is known to be false.
    `group`: rules of one cause that look at the same thing; each counts half as much as the next stronger one.
    """

    cause: Word
    speaks: Speaks
    strength: Strength
    otherwise: Strength | None = None
    otherwise_because: str = ""
    group: Word | None = None
    strength_from: str = ""
    """How the strength was set, if the origin does not say it."""

    @model_validator(mode="after")
    def _otherwise_is_said(self) -> Self:
        if (self.otherwise is None) != (not self.otherwise_because):
            raise ValueError(
                _("{one} and {other} together or neither").format(one="otherwise", other="otherwise_because")
            )
        return self


class Conflict(_Worked):
    """Answers that hardly go together. Shown beside the ranking; weighs nothing."""


class Cause(Entry):
    """A reason for losing leaves: what it is, how it looks, the check that settles it, its prior in decibans."""

    name: Label
    what: Sentence
    looks: Sentence
    settles: Sentence
    prior_db: Annotated[float, Field(ge=-40, le=40, multiple_of=0.5)]
    origin: Origins
    advice: tuple[Word, ...] = ()
    """What to do if this is the cause: advice ids, first things first."""


class PlantProfile(Entry):
    """A kind of plant: its needs, habits and temperament. Each trait is the fact `plant_<trait>` (yes or no)."""

    name: Label
    genera: tuple[str, ...] = ()
    family: Word
    form: Literal["corm", "rhizome", "cane", "vine", "rosette", "tree", "shrub", "succulent", "fern", "any"]
    water: Literal["keep_moist", "top_dry", "half_dry", "dry_out", "any"]
    """When to water: never quite dry, when the top 2-3 cm are dry, half the pot, the whole pot."""
    water_origin: Origins
    traits: dict[Word, Origins] = {}  # noqa: RUF012 - pydantic copies it
    """Known temperament: trait -> where that is known from."""
    toxicity: str = ""
    caution: tuple[Word, ...] = ()
    needs: PlantNeeds = PlantNeeds()
    notes: str = ""


class Caution(Entry):
    """A warning shown wherever it applies."""

    text: Sentence
    origin: Origins


class Advice(Entry):
    """One step to take. `unless`: held back while one of these causes is also likely and unsettled."""

    text: Sentence
    how: Sentence
    effort: Effort
    changes: Word = "other"
    """What it alters (light, water, roots, ...), of which no two steps alter the same at once; `nothing` for a look."""
    pace: Pace = "in_turn"
    """One at a time; or at once, since harm does not wait; or beside others, too small to blur what helped."""
    order: int
    """Safest, cheapest, most telling first: low numbers come first."""
    when: Condition | None = None
    """Only given when this is known to be true."""
    unless: tuple[Word, ...] = ()
    hold_until: str = ""
    """The check that settles whether a held-back step is right."""
    look_again_days: Annotated[int, Field(ge=1, le=365)] | None = None
    expect: str = ""
    """What should be seen by then if it was right."""
    caution: tuple[Word, ...] = ()
    tells: tuple[Word, ...] = ()
    """Questions that a look answers: once all are answered it need not be taken."""
    origin: Origins

    @model_validator(mode="after")
    def _held_with_reason(self) -> Self:
        if bool(self.unless) != bool(self.hold_until):
            raise ValueError(
                _("{one} and {other} together or neither").format(one="unless", other="hold_until")
            )
        return self


class Source(Strict):
    """A published source that origins name by id."""

    id: Annotated[str, Field(pattern=r"^[A-Z]-\d+[a-z]?$")]
    title: Sentence
    author: Label
    year: str = ""
    where: str = ""
    override: bool = False


class RuleFile(Strict):
    """One TOML file of a rules folder: any of these tables, and ids of built-in entries to switch off."""

    subject: tuple[Subject, ...] = ()
    question: tuple[Question, ...] = ()
    finding: tuple[Finding, ...] = ()
    rule: tuple[Rule, ...] = ()
    evidence: tuple[Evidence, ...] = ()
    conflict: tuple[Conflict, ...] = ()
    cause: tuple[Cause, ...] = ()
    plant: tuple[PlantProfile, ...] = ()
    caution: tuple[Caution, ...] = ()
    advice: tuple[Advice, ...] = ()
    source: tuple[Source, ...] = ()
    switch_off: tuple[str, ...] = ()


TABLES = tuple(name for name in RuleFile.model_fields if name != "switch_off")
