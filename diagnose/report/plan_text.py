"""A plan as plain text: for terminals, pipes and screen readers."""

from collections.abc import Iterable, Iterator

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, and_listed, day_in_short, day_said, marked, ngettext, or_listed
from diagnose.plan import Caution, Held, LookAgain, Plan, Schedule, Step, Unasked
from diagnose.report.text import bullet_list, hung, origin_said_in, wrapped
from diagnose.report.words import assumed_said, cause_said, heading, lower_first, percent, with_house
from diagnose.rulebase.rulebase import RuleBase


def plan_text(diagnosis: Diagnosis, plan: Plan) -> str:
    """Return the whole plan, at most 79 columns wide."""
    base = diagnosis.base
    parts = [
        heading(diagnosis),
        *wrapped(purpose(plan)),
        *(wrapped(plan.only_looks) if plan.only_looks else []),
    ]
    for title, steps in parted(plan):
        parts += [*_section(title), *_spaced(_step(base, plan, step) for step in steps)]
    if plan.held:
        parts += [*_section(_("Not yet")), *_spaced(_held(held) for held in plan.held)]
    if plan.looks:
        parts += [*_section(_("When to look again")), *_spaced(_look(look) for look in plan.looks)]
    for schedule in plan.schedules:
        parts += [*_section(schedule.title), "", *_schedule(base, schedule)]
    if plan.cautions:
        parts += [*_section(_("Take care"))]
        parts += _spaced(_caution(number, one) for number, one in enumerate(plan.cautions, start=1))
    if plan.unasked:
        parts += ["", *wrapped(_("These steps hang on answers not given:")), *_unasked(base, plan)]
    return "\n".join([*parts, "", *wrapped(_(LIMITS))])


LIMITS = marked(
    "A plan from answers, not from the plant itself. Labels, local rules and licensed advice go first. "
    "Answer again after each look: the plan changes with what is seen."
)

BETTER = marked("Is it better, the same or worse?")

_PARTS = (
    (marked("Today: look and measure"), "look", None),
    (marked("Bear in mind"), "mind", None),
    (marked("From today: leave as it is"), "wait", None),
    (marked("Today: do without delay"), "change", ("at_once", "in_turn")),
    (marked("Today: small things beside"), "change", ("beside",)),
)


def parted(plan: Plan) -> Iterator[tuple[str, list[Step]]]:
    """Yield the steps under headings: looks, waiting, what is done today, and each later day's change."""
    today = [step for step in plan.steps if step.date == plan.date]
    for title, kind, paces in _PARTS:
        if steps := [step for step in today if step.kind == kind and (paces is None or step.pace in paces)]:
            yield _(title), steps
    later = [step for step in plan.steps if step.date > plan.date]
    has_changed = False
    for date in dict.fromkeys(step.date for step in later):
        steps = [step for step in later if step.date == date]
        title = _("Then, from {day}, if leaves still go") if has_changed else _("Next, from {day}")
        yield title.format(day=day_said(date)), steps
        has_changed = has_changed or any(step.kind == "change" for step in steps)


def why_held(held: Held) -> str:
    """Return in a sentence why a step is not given yet."""
    if not held.doubts:
        names = or_listed([cause_said(name) for name in held.causes])
        return _("Waiting is right only if the cause is {causes}, and another is likelier.").format(
            causes=names
        )
    named = or_listed([_with_chance(name, probability) for name, probability in held.doubts])
    return _("It would do harm, or no good, with {causes}.").format(causes=named)


def look_again(step: Step) -> str:
    """Return in a sentence when to look again and what to expect; nothing where there is no such day."""
    if step.look_again is None:
        return ""
    day = day_said(step.look_again)
    if not step.expect:
        return _("Look again on {day}.").format(day=day)
    return _("Look again on {day}: {expected}").format(day=day, expected=lower_first(step.expect))


def take_care(plan: Plan, step: Step) -> str:
    """Return in a sentence which of the plan's cautions go with a step; nothing where none does."""
    numbers = [str(number) for number, one in enumerate(plan.cautions, start=1) if one.id in step.cautions]
    if not numbers:
        return ""
    text = ngettext(
        "Take care: caution {numbers} below.", "Take care: cautions {numbers} below.", len(numbers)
    )
    return text.format(numbers=and_listed(numbers))


def unasked_said(base: RuleBase, one: Unasked) -> str:
    """Return a step that hangs on answers, with the questions by their texts."""
    asked = [base.questions[question].text for question in one.questions if question in base.questions]
    return _("{step} It hangs on: {questions}").format(step=one.text, questions=" ".join(asked))


def purpose(plan: Plan) -> str:
    """Return in a sentence what the plan is for."""
    named = and_listed([_with_chance(cause.name, cause.probability) for cause in plan.causes])
    return _("What to do, for {causes}.").format(causes=named)


def _with_chance(name: str, probability: float) -> str:
    return _("{cause} ({percent})").format(cause=cause_said(name), percent=percent(probability))


def _spaced(blocks: Iterable[Iterable[str]]) -> list[str]:
    return [line for block in blocks for line in ("", *block)]


def _held(held: Held) -> Iterator[str]:
    yield from hung("  ", with_house(held.text, house=held.house))
    yield from hung("    ", why_held(held))
    if held.until:
        yield from hung("    ", _("First: {text}").format(text=held.until))


def _look(look: LookAgain) -> Iterator[str]:
    yield f"  {day_said(look.date)}"
    for _step_id, text, expect in look.steps:
        yield from hung("  - ", f"{text} {expect or _(BETTER)}")


def _caution(number: int, caution: Caution) -> Iterator[str]:
    yield from hung(f"{number:>3}  ", caution.text)
    steps = "; ".join(one.rstrip(".") for one in caution.applies_to)
    yield from hung("     ", _("Applies to: {steps}.").format(steps=steps))


def _section(title: str) -> list[str]:
    lines = wrapped(title)
    return ["", *lines, "-" * max(map(len, lines))]


def _step(base: RuleBase, plan: Plan, step: Step) -> Iterator[str]:
    yield from hung("  ", with_house(step.text, house=step.house))
    yield from hung("    ", step.how)
    for said in (look_again(step), take_care(plan, step)):
        if said:
            yield from hung("    ", said)
    yield from hung("    ", f"[{step.id}; {'; '.join(origin_said_in(base, one) for one in step.origin)}]")


def _schedule(base: RuleBase, schedule: Schedule) -> Iterator[str]:
    width = max((len(day_in_short(row.date)) for row in schedule.rows), default=0)
    for row in schedule.rows:
        when = day_in_short(row.date)
        yield from hung(f"  {when:<{width}} " if when else "  - ", row.text)
    if schedule.note:
        yield from hung("  ", schedule.note)
    for assumed in schedule.assumed:
        yield from hung("  ", assumed_said(base, assumed))
    yield from hung("  ", f"[{'; '.join(origin_said_in(base, one) for one in schedule.origin)}]")


def _unasked(base: RuleBase, plan: Plan) -> list[str]:
    return bullet_list(unasked_said(base, one) for one in plan.unasked)
