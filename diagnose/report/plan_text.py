"""A plan as plain text: for terminals, pipes and screen readers."""

import datetime as dt
import textwrap
from collections.abc import Iterable, Iterator

from diagnose.diagnosis import Diagnosis
from diagnose.plan import Caution, Held, LookAgain, Plan, Schedule, Step
from diagnose.report.text import WIDTH, origin_said_in, wrapped
from diagnose.report.words import date_said, day_in_short, heading, lower_first, percent
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
        parts += [*_section(title), *_spaced(_step(base, step) for step in steps)]
    if plan.held:
        parts += [*_section("Not yet"), *_spaced(_held(held) for held in plan.held)]
    if plan.looks:
        parts += [*_section("When to look again"), *_spaced(_look(look) for look in plan.looks)]
    for schedule in plan.schedules:
        parts += [*_section(schedule.title), "", *_schedule(base, schedule)]
    if plan.cautions:
        parts += [*_section("Take care"), *_spaced(_caution(caution) for caution in plan.cautions)]
    if plan.unasked:
        parts += ["", *wrapped("These steps hang on answers not given: " + _unasked(plan))]
    return "\n".join([*parts, "", *wrapped(LIMITS)])


LIMITS = (
    "A plan from answers, not from the plant itself. Labels, local rules and licensed advice go first. "
    "Answer again after each look: the plan changes with what is seen."
)

BETTER = "Is it better, the same or worse?"


def parted(plan: Plan) -> Iterator[tuple[str, list[Step]]]:
    """Yield the steps under headings: looks, waiting, what is done today, and each later day's change."""
    today = [step for step in plan.steps if step.date == plan.date]
    for title, kind, paces in (
        ("Today: look and measure", "look", None),
        ("Bear in mind", "mind", None),
        ("From today: leave as it is", "wait", None),
        ("Today: do without delay", "change", ("at_once", "in_turn")),
        ("Today: small things beside", "change", ("beside",)),
    ):
        if steps := [step for step in today if step.kind == kind and (paces is None or step.pace in paces)]:
            yield title, steps
    later = [step for step in plan.steps if step.date > plan.date]
    for number, date in enumerate(dict.fromkeys(step.date for step in later)):
        title = f"Then, from {day(date)}, if leaves still go" if number else f"Next, from {day(date)}"
        yield title, [step for step in later if step.date == date]


def why_held(held: Held) -> str:
    """Return in a sentence why a step is not given yet."""
    if not held.doubts:
        names = " or ".join(lower_first(name) for name in held.causes)
        return f"Waiting is right only if the cause is {names}, and another is likelier."
    named = " or ".join(f"{lower_first(name)} ({percent(probability)})" for name, probability in held.doubts)
    return f"It would do harm, or no good, with {named}."


def day(date: dt.date) -> str:
    """Return a date with its day of the week, such as Sunday 8 November 2026."""
    return f"{date:%A} {date_said(date)}"


def purpose(plan: Plan) -> str:
    """Return in a sentence what the plan is for."""
    named = [f"{lower_first(cause.name)} ({percent(cause.probability)})" for cause in plan.causes]
    return "What to do, for " + (", ".join(named[:-1]) + " and " if named[1:] else "") + named[-1] + "."


def _spaced(blocks: Iterable[Iterable[str]]) -> list[str]:
    return [line for block in blocks for line in ("", *block)]


def _held(held: Held) -> Iterator[str]:
    yield from _hung("  ", held.text + (" (house)" if held.house else ""))
    yield from _hung("    ", why_held(held))
    if held.until:
        yield from _hung("    ", f"First: {held.until}")


def _look(look: LookAgain) -> Iterator[str]:
    yield f"  {day(look.date)}"
    for _, text, expect in look.steps:
        yield from _hung("  - ", f"{text} {expect or BETTER}")


def _caution(caution: Caution) -> Iterator[str]:
    yield from _hung("  ", caution.text)
    yield from _hung("  ", f"Applies to: {'; '.join(one.rstrip('.') for one in caution.applies_to)}.")


def _section(title: str) -> list[str]:
    lines = textwrap.wrap(title, WIDTH)
    return ["", *lines, "-" * max(map(len, lines))]


def _step(base: RuleBase, step: Step) -> Iterator[str]:
    yield from _hung("  ", step.text + (" (house)" if step.house else ""))
    yield from _hung("    ", step.how)
    if step.look_again:
        expected = f": {lower_first(step.expect)}" if step.expect else "."
        yield from _hung("    ", f"Look again on {day(step.look_again)}{expected}")
    if step.cautions:
        yield from _hung(
            "    ", f"Take care: {', '.join(one.replace('_', ' ') for one in step.cautions)} (below)."
        )
    yield from _hung("    ", f"[{step.id}; {'; '.join(origin_said_in(base, one) for one in step.origin)}]")


def _schedule(base: RuleBase, schedule: Schedule) -> Iterator[str]:
    for row in schedule.rows:
        when = day_in_short(row.date)
        yield from _hung(f"  {when:<11}" if when else "  - ", row.text)
    if schedule.note:
        yield from _hung("  ", schedule.note)
    for assumed in schedule.assumed:
        yield from _hung(
            "  ", f"Assumed: {assumed.name.replace('_', ' ')} {assumed.value}; {assumed.effect}."
        )
    yield from _hung("  ", f"[{'; '.join(origin_said_in(base, one) for one in schedule.origin)}]")


def _unasked(plan: Plan) -> str:
    return "; ".join(f"{one.text.rstrip('.')} ({', '.join(one.questions)})" for one in plan.unasked) + "."


def _hung(start: str, text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start)) or [
        start.rstrip()
    ]
