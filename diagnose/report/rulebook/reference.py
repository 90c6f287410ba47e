"""Pages of what is looked up: subjects, plants, advice, cautions and sources."""

from collections.abc import Iterator

from diagnose.language import _, marked, ngettext, numeral
from diagnose.report.rulebook.conditions import condition_run, origin_run, origin_runs
from diagnose.report.rulebook.page import Link, Part, Run, joined, listing, said
from diagnose.report.rulebook.reasoning import cautions
from diagnose.report.rulebook.terms import word_said
from diagnose.report.rulebook.uses import Uses
from diagnose.rulebase.model import Advice, Caution, PlantProfile, Source, Subject
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import WATERS

_UNITS = {"_mol_m2_d": "mol/m²/d", "_c": "°C", "_percent": "%", "_d": marked("days")}


def subject_parts(_base: RuleBase, uses: Uses, entry: Subject) -> list[Part]:
    """Return a subject's page."""
    return [
        *said(_("Heading"), entry.name),
        *said(
            _("Order"), _("{number}: subjects with low numbers are asked first").format(number=entry.order)
        ),
        *listing(_("Questions"), uses.of("subject", entry.id)),
    ]


def plant_parts(base: RuleBase, _uses: Uses, entry: PlantProfile) -> list[Part]:
    """Return a plant's page."""
    traits = [
        (f"{word_said(trait)} (", *origin_run(base, origin), ")") for trait, origin in entry.traits.items()
    ]
    water = _(WATERS.get(entry.water, entry.water))
    return [
        *said(_("Genera"), ", ".join(entry.genera)),
        *said(_("Family"), entry.family.capitalize()),
        *said(_("Form"), word_said(entry.form)),
        *said(_("Water"), f"{water} (", *origin_run(base, entry.water_origin), ")"),
        *listing(_("Needs"), _needs(base, entry)),
        *listing(_("Known to be"), traits),
        *said(_("Toxicity"), entry.toxicity),
        *listing(_("Take care"), cautions(base, entry.caution)),
        *said(_("Notes"), entry.notes),
    ]


def advice_parts(base: RuleBase, uses: Uses, entry: Advice) -> list[Part]:
    """Return a piece of advice's page."""
    held = joined(((Link("cause", name, base.causes[name].name),) for name in entry.unless), ", ")
    when: Run = condition_run(base, entry.when) if entry.when else ()
    days = entry.look_again_days or 0
    look_again = ngettext("in {days} day", "in {days} days", days).format(days=days) if days else ""
    return [
        *said("", entry.text),
        *said(_("How"), entry.how),
        *said(_("Effort"), word_said(entry.effort)),
        *said(_("Changes"), f"{word_said(entry.changes)} ({word_said(entry.pace)})"),
        *said(_("Order"), _("{number}: steps with low numbers come first").format(number=entry.order)),
        *said(_("Given when"), *when),
        *said(_("Held back while also likely"), *held),
        *said(_("Until"), entry.hold_until),
        *said(_("Look again"), look_again),
        *said(_("Expect"), entry.expect),
        *said(_("Tells"), *joined(((Link("question", name, name),) for name in entry.tells), ", ")),
        *listing(_("Take care"), cautions(base, entry.caution)),
        *listing(_("Origin"), origin_runs(base, entry.origin)),
        *listing(_("Given for"), uses.of("advice", entry.id, "cause")),
    ]


def caution_parts(base: RuleBase, uses: Uses, entry: Caution) -> list[Part]:
    """Return a warning's page."""
    return [
        *said("", entry.text),
        *listing(_("Origin"), origin_runs(base, entry.origin)),
        *listing(_("Shown with"), uses.of("caution", entry.id)),
    ]


def source_parts(_base: RuleBase, uses: Uses, entry: Source) -> list[Part]:
    """Return a source's page."""
    return [
        *said(_("Title"), entry.title),
        *said(_("Author"), entry.author),
        *said(_("Year"), entry.year),
        *said(_("Where"), entry.where),
        *listing(_("Cited by"), uses.of("source", entry.id)),
    ]


def _needs(base: RuleBase, entry: PlantProfile) -> Iterator[Run]:
    for name, need in entry.needs:
        if need is not None:
            values = [_need(field, value) for field, value in need if isinstance(value, float)]
            yield (f"{word_said(name)}: {', '.join(values)} (", *origin_run(base, need.origin), ")")


def _need(field: str, value: float) -> str:
    """Return a need with the unit that its name ends in."""
    unit = next((unit for unit in _UNITS if field.endswith(unit)), "")
    said = _(_UNITS[unit]) if unit else ""
    return f"{word_said(field.removesuffix(unit))} {numeral(value, 'g')} {said}".rstrip()
