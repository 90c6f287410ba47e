"""Every name that rules may speak of: answers, measures and plant facts, with type, unit and words."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from diagnose.measures.measure import Declaration
from diagnose.rulebase.model import RECORD_KINDS, PlantProfile, Question

YES_NO = {"yes": "yes", "no": "no"}
NO_PLANT = "generic"
"""The profile of which nothing is known."""

FORMS = ("corm", "rhizome", "cane", "vine", "rosette", "tree", "shrub", "succulent", "fern")
WATERS = {
    "keep_moist": "never quite dry",
    "top_dry": "dry at the top before the next watering",
    "half_dry": "dry to half the pot before the next watering",
    "dry_out": "dry right through before the next watering",
}


@dataclass(frozen=True, slots=True)
class Term:
    """One name: a number with unit and bounds, or one of `words` (word -> how it is said)."""

    name: str
    source: Literal["question", "measure", "plant"]
    meaning: str
    unit: str = ""
    words: Mapping[str, str] = field(default_factory=dict)
    least: float = -1e15
    most: float = 1e15

    @property
    def is_number(self) -> bool:
        """Whether its values are numbers."""
        return not self.words

    def said(self, value: float | str) -> str:
        """Return a value as it is said in a sentence: with its unit, or as the choice's label."""
        if isinstance(value, str):
            return self.words.get(value, value.replace("_", " "))
        return f"{plain_number(value)} {self.said_unit}".rstrip()

    @property
    def said_unit(self) -> str:
        """The unit as it is said after a number."""
        return {"d": "days", "h/d": "hours a day"}.get(self.unit, self.unit)


def plain_number(value: float) -> str:
    """Return a number with no more digits than such numbers deserve: two, or one decimal from 10 on."""
    if value == int(value) or abs(value) >= 100:
        return f"{value:,.0f}"
    return f"{value:.1f}".removesuffix(".0") if abs(value) >= 10 else f"{value:.2g}"


def vocabulary(
    questions: Iterable[Question], plants: Iterable[PlantProfile], measures: Iterable[Declaration]
) -> dict[str, Term]:
    """Return name -> Term for all facts that questions, plant profiles and measures can provide."""
    terms = [term for question in questions for term in _asked(question)]
    terms += [
        Term(m.name, "measure", m.meaning, m.unit, {w: w.replace("_", " ") for w in m.words}, m.least, m.most)
        for m in measures
    ]
    terms += _of_plants(tuple(plants))
    return {term.name: term for term in terms}


def _asked(question: Question) -> list[Term]:
    if question.kind in RECORD_KINDS:
        return []
    if question.kind == "several":
        return [
            Term(f"{question.id}.{choice.id}", "question", f"{question.text} {choice.label}", words=YES_NO)
            for choice in question.choices
        ]
    if question.kind == "choice":
        words = {choice.id: choice.label for choice in question.choices}
        return [Term(question.id, "question", question.text, words=words)]
    if question.kind == "yes_no":
        return [Term(question.id, "question", question.text, words=YES_NO)]
    if question.kind == "date":
        return [Term(question.id, "question", question.text, "d", least=0, most=36500)]
    least, most = question.least, question.most
    return [
        Term(
            question.id,
            "question",
            question.text,
            question.unit,
            least=-1e15 if least is None else least,
            most=1e15 if most is None else most,
        )
    ]


def _of_plants(plants: tuple[PlantProfile, ...]) -> list[Term]:
    known = [plant for plant in plants if plant.id != NO_PLANT]
    traits = sorted({trait for plant in known for trait in plant.traits})
    families = {plant.family: plant.family.capitalize() for plant in known} or {"none": "none"}
    return [
        Term("plant_family", "plant", "The plant's family.", words=families),
        Term("plant_form", "plant", "How the plant grows.", words={form: form for form in FORMS}),
        Term("plant_water", "plant", "How the plant likes its water.", words=WATERS),
        *(
            Term(f"plant_{trait}", "plant", f"Known to be so: {trait.replace('_', ' ')}.", words=YES_NO)
            for trait in traits
        ),
    ]
