"""Every name that rules may speak of: answers, measures and plant facts, with type, unit and words."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from diagnose.language import _, marked, ngettext, numeral, pgettext
from diagnose.measures.measure import Declaration
from diagnose.measures.words import words_said
from diagnose.rulebase.model import RECORD_KINDS, PlantProfile, Question

YES_NO = {"yes": marked("yes"), "no": marked("no")}
NO_PLANT = "generic"
"""The profile of which nothing is known."""

FORMS = {
    "corm": marked("corm"),
    "rhizome": marked("rhizome"),
    "cane": marked("cane"),
    "vine": marked("vine"),
    "rosette": marked("rosette"),
    "tree": marked("tree"),
    "shrub": marked("shrub"),
    "succulent": marked("succulent"),
    "fern": marked("fern"),
}
WATERS = {
    "keep_moist": marked("never quite dry"),
    "top_dry": marked("dry at the top before the next watering"),
    "half_dry": marked("dry to half the pot before the next watering"),
    "dry_out": marked("dry right through before the next watering"),
}
_TRAITS = {
    "chill_sensitive": marked("chill sensitive"),
    "drops_when_moved": marked("drops when moved"),
    "drought_tolerant": marked("drought tolerant"),
    "fluoride_sensitive": marked("fluoride sensitive"),
    "heavy_feeder": marked("heavy feeder"),
    "humidity_lover": marked("humidity lover"),
    "low_light_tolerant": marked("low light tolerant"),
    "mite_prone": marked("mite prone"),
    "rests": marked("rests"),
    "rots_easily": marked("rots easily"),
    "salt_sensitive": marked("salt sensitive"),
    "sheds_old_for_new": marked("sheds old for new"),
    "spots_easily": marked("spots easily"),
    "thirsty": marked("thirsty"),
}
"""Traits of the built-in plants; house rules may have others, said as they are called."""


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
        if self.unit == "d":
            return ngettext("{count} day", "{count} days", value).format(count=plain_number(value))
        return f"{plain_number(value)} {self.said_unit}".rstrip()

    @property
    def said_unit(self) -> str:
        """The unit as it is said after a number."""
        return unit_said(self.unit)


def unit_said(unit: str) -> str:
    """Return a unit as it is said after a number; most are said as they are written."""
    words = {
        "d": pgettext("unit", "days"),
        "h/d": pgettext("unit", "hours a day"),
        "degrees": pgettext("unit", "degrees"),
        "leaves": pgettext("unit", "leaves"),
        "months": pgettext("unit", "months"),
        "lux, foot-candles or µmol/m²/s": pgettext("unit", "lux, foot-candles or µmol/m²/s"),
    }
    return words.get(unit, unit)


def plain_number(value: float) -> str:
    """Return a number with no more digits than such numbers deserve: two, or one decimal from 10 on."""
    if value == int(value) or abs(value) >= 100:
        return numeral(value, ",.0f")
    if abs(value) >= 10:
        return numeral(round(value, 1), ",.0f" if round(value, 1) == round(value) else ".1f")
    return numeral(value, ".2g")


def vocabulary(
    questions: Iterable[Question], plants: Iterable[PlantProfile], measures: Iterable[Declaration]
) -> dict[str, Term]:
    """Return name -> Term for all facts that questions, plant profiles and measures can provide."""
    terms = [term for question in questions for term in _asked(question)]
    words = words_said()
    terms += [
        Term(m.name, "measure", _(m.meaning), m.unit, {w: words[w] for w in m.words}, m.least, m.most)
        for m in measures
    ]
    terms += _of_plants(tuple(plants))
    return {term.name: term for term in terms}


def _asked(question: Question) -> list[Term]:
    if question.kind in RECORD_KINDS:
        return []
    if question.kind == "several":
        return [
            Term(
                f"{question.id}.{choice.id}",
                "question",
                f"{question.text} {choice.label}",
                words=_said(YES_NO),
            )
            for choice in question.choices
        ]
    if question.kind == "choice":
        words = {choice.id: choice.label for choice in question.choices}
        return [Term(question.id, "question", question.text, words=words)]
    if question.kind == "yes_no":
        return [Term(question.id, "question", question.text, words=_said(YES_NO))]
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
    families = {plant.family: plant.family.capitalize() for plant in known} or {
        "none": pgettext("a plant's family", "none")
    }
    return [
        Term("plant_family", "plant", _("The plant's family."), words=families),
        Term("plant_form", "plant", _("How the plant grows."), words=_said(FORMS)),
        Term("plant_water", "plant", _("How the plant likes its water."), words=_said(WATERS)),
        *(
            Term(
                f"plant_{trait}",
                "plant",
                _("Known to be so: {trait}.").format(trait=trait_said(trait)),
                words=_said(YES_NO),
            )
            for trait in traits
        ),
    ]


def trait_said(trait: str) -> str:
    """Return a plant's trait as it is said."""
    return _(_TRAITS[trait]) if trait in _TRAITS else trait.replace("_", " ")


def _said(words: Mapping[str, str]) -> dict[str, str]:
    return {word: _(said) for word, said in words.items()}
