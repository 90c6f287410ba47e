"""A diagnosis' parts -> what to do now, in which order, and when to look again."""

from collections.abc import Collection, Iterable

from diagnose.facts import Gathered
from diagnose.language import _
from diagnose.plan.choose import Chosen, choose, only_looks, probable
from diagnose.plan.dates import dated, looks_again
from diagnose.plan.ground import Ground, given_of
from diagnose.plan.light import Light, light_of
from diagnose.plan.records import Addressed, Caution, Plan, Step
from diagnose.plan.schedules import schedules
from diagnose.ranking import Ranking
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import RuleBase

_LAMPS = {"lengthen_lamp_hours", "add_lamp"}
_LIGHT_STEPS = {"move_closer_in_steps", "step_down_light", "clear_window", *_LAMPS}


def make_plan(base: RuleBase, gathered: Gathered, findings: Collection[str], ranking: Ranking) -> Plan:
    """Return the plan for the probable causes together; `findings` are those held."""
    case = gathered.case
    causes = tuple(
        Addressed(cause.id, cause.name, cause.probability, base.causes[cause.id].settles)
        for cause in probable(ranking)
    )
    choice = choose(base, gathered.values, findings, ranking)
    given = given_of(gathered)
    light = light_of(given, with_alternatives=any(one.advice.id in _LIGHT_STEPS for one in choice.given))
    steps = dated(_lamp_first(choice.given, light), case.date, base)
    ground = Ground(given, {step.id: step for step in steps}, light)
    return Plan(
        date=case.date,
        causes=causes,
        only_looks=only_looks(ranking),
        steps=steps,
        held=choice.held,
        unasked=choice.unasked,
        looks=looks_again(steps),
        cautions=_cautions(base, gathered, steps),
        schedules=schedules(ground),
        light=light,
    )


def _lamp_first(given: tuple[Chosen, ...], light: Light | None) -> tuple[Chosen, ...]:
    """Return the steps with those on lamps before a move, if the window cannot give enough at any distance."""
    if light is None or not light.window_is_too_weak:
        return given
    moves = [one for one in given if one.advice.id == "move_closer_in_steps"]
    lamps = [one for one in given if one.advice.id in _LAMPS]
    if not moves or not lamps:
        return given
    others = [one for one in given if one not in lamps]
    at = others.index(moves[0])
    return (*others[:at], *lamps, *others[at:])


def _cautions(base: RuleBase, gathered: Gathered, steps: Iterable[Step]) -> tuple[Caution, ...]:
    """Return the plant's own cautions, then those of the steps, each once with what it applies to."""
    applies: dict[str, list[str]] = {}
    plant = base.plants.get(gathered.case.plant.profile or "")
    for caution in plant.caution if plant else ():
        applies.setdefault(caution, []).append(_("the plant itself"))
    for step in steps:
        for caution in step.cautions:
            applies.setdefault(caution, []).append(step.text)
    return tuple(
        Caution(one, base.cautions[one].text, tuple(where), listed(base.cautions[one].origin))
        for one, where in applies.items()
    )
