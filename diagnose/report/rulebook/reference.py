"""Pages of what is looked up: subjects, plants, advice, cautions and sources."""

from collections.abc import Iterator

from diagnose.report.rulebook.conditions import condition_run, origin_run, origin_runs
from diagnose.report.rulebook.page import Link, Part, Run, joined, listing, said
from diagnose.report.rulebook.reasoning import cautions
from diagnose.report.rulebook.uses import Uses
from diagnose.rulebase.model import Advice, Caution, PlantProfile, Source, Subject
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import WATERS

_UNITS = {"_mol_m2_d": "mol/m²/d", "_c": "°C", "_percent": "%", "_d": "days"}


def subject_parts(_base: RuleBase, uses: Uses, entry: Subject) -> list[Part]:
    """Return a subject's page."""
    return [
        *said("Heading", entry.name),
        *said("Order", f"{entry.order}: subjects with low numbers are asked first"),
        *listing("Questions", uses.of("subject", entry.id)),
    ]


def plant_parts(base: RuleBase, _uses: Uses, entry: PlantProfile) -> list[Part]:
    """Return a plant's page."""
    traits = [
        (f"{trait.replace('_', ' ')} (", *origin_run(base, origin), ")")
        for trait, origin in entry.traits.items()
    ]
    water = WATERS.get(entry.water, entry.water)
    return [
        *said("Genera", ", ".join(entry.genera)),
        *said("Family", entry.family.capitalize()),
        *said("Form", entry.form),
        *said("Water", f"{water} (", *origin_run(base, entry.water_origin), ")"),
        *listing("Needs", _needs(base, entry)),
        *listing("Known to be", traits),
        *said("Toxicity", entry.toxicity),
        *listing("Take care", cautions(base, entry.caution)),
        *said("Notes", entry.notes),
    ]


def advice_parts(base: RuleBase, uses: Uses, entry: Advice) -> list[Part]:
    """Return a piece of advice's page."""
    held = joined(((Link("cause", name, base.causes[name].name),) for name in entry.unless), ", ")
    when: Run = condition_run(base, entry.when) if entry.when else ()
    look_again = f"in {entry.look_again_days} days" if entry.look_again_days else ""
    return [
        *said("", entry.text),
        *said("How", entry.how),
        *said("Effort", entry.effort),
        *said("Changes", f"{entry.changes.replace('_', ' ')} ({entry.pace.replace('_', ' ')})"),
        *said("Order", f"{entry.order}: steps with low numbers come first"),
        *said("Given when", *when),
        *said("Held back while also likely", *held),
        *said("Until", entry.hold_until),
        *said("Look again", look_again),
        *said("Expect", entry.expect),
        *said("Tells", *joined(((Link("question", name, name),) for name in entry.tells), ", ")),
        *listing("Take care", cautions(base, entry.caution)),
        *listing("Origin", origin_runs(base, entry.origin)),
        *listing("Given for", uses.of("advice", entry.id, "cause")),
    ]


def caution_parts(base: RuleBase, uses: Uses, entry: Caution) -> list[Part]:
    """Return a warning's page."""
    return [
        *said("", entry.text),
        *listing("Origin", origin_runs(base, entry.origin)),
        *listing("Shown with", uses.of("caution", entry.id)),
    ]


def source_parts(_base: RuleBase, uses: Uses, entry: Source) -> list[Part]:
    """Return a source's page."""
    return [
        *said("Title", entry.title),
        *said("Author", entry.author),
        *said("Year", entry.year),
        *said("Where", entry.where),
        *listing("Cited by", uses.of("source", entry.id)),
    ]


def _needs(base: RuleBase, entry: PlantProfile) -> Iterator[Run]:
    for name, need in entry.needs:
        if need is not None:
            values = [_need(field, value) for field, value in need if isinstance(value, float)]
            yield (f"{name.replace('_', ' ')}: {', '.join(values)} (", *origin_run(base, need.origin), ")")


def _need(field: str, value: float) -> str:
    """Return a need with the unit that its name ends in."""
    unit = next((unit for unit in _UNITS if field.endswith(unit)), "")
    return f"{field.removesuffix(unit).replace('_', ' ')} {value:g} {_UNITS.get(unit, '')}".rstrip()
