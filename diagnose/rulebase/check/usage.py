"""What is there and not used, what is used and not there, and causes that only one side speaks of."""

from collections import defaultdict
from collections.abc import Iterator

from diagnose.language import _, marked
from diagnose.measures.registry import DECLARED
from diagnose.problems import Problem
from diagnose.rulebase.check.entries import conditionals, problem, sides
from diagnose.rulebase.model import RECORD_KINDS
from diagnose.rulebase.resolve import conditions_in
from diagnose.rulebase.rulebase import RuleBase

_ONE_SIDED = {
    "for": (marked("only evidence for it"), marked("add what would speak against")),
    "against": (marked("only evidence against it"), marked("add what would speak for")),
    "": (marked("no evidence on it"), marked("add what would speak against and for")),
}
"""The one side that a cause has evidence of -> what is found, and how to mend it."""


def findings(base: RuleBase) -> Iterator[Problem]:
    """Yield findings that nothing concludes or nothing uses."""
    concluded = {rule.gives for rule in base.rules.values()}
    used = _names_used(base)[1]
    for finding in base.findings.values():
        here = ("finding", finding, ("id",))
        silenced = base.switched_off and not base.is_house(
            "finding", finding.id
        )  # the grower wants it silent
        if finding.id not in concluded and not silenced:
            yield problem(
                base,
                "unconcluded",
                here,
                _("no rule that concludes it"),
                _('a [[rule]] with gives = "{finding}"').format(finding=finding.id),
                _("add one, or take the finding out"),
            )
        if finding.id not in used:
            yield problem(
                base,
                "unused_finding",
                here,
                _("nothing that uses it"),
                _("a condition with {test}").format(test=f'{{ finding = "{finding.id}" }}'),
                _("add one, or take the finding out"),
            )


def questions(base: RuleBase) -> Iterator[Problem]:
    """Yield questions whose answers nothing uses."""
    used = _names_used(base)[0]
    used |= {name for measure in DECLARED for name in measure.inputs}
    for question in base.questions.values():
        facts = {question.id, *(f"{question.id}.{choice.id}" for choice in question.choices)}
        if question.kind not in RECORD_KINDS and not facts & used:
            yield problem(
                base,
                "unused_question",
                ("question", question, ("id",)),
                _("no condition that uses its answer"),
                _("a question that can change the ranking"),
                _("use it in a rule, or take it out"),
            )


def advice(base: RuleBase) -> Iterator[Problem]:
    """Yield advice that no cause leads to."""
    given = {name for cause in base.causes.values() for name in cause.advice}
    for step in base.advice.values():
        if step.id not in given:
            yield problem(
                base,
                "unused_advice",
                ("advice", step, ("id",)),
                _("no cause that gives it"),
                _("its id in the advice of a cause"),
                _("add it there, or take it out"),
            )


def one_sided(base: RuleBase) -> Iterator[Problem]:
    """Yield causes that no evidence, or only evidence of one side, speaks of."""
    spoken: dict[str, set[str]] = defaultdict(set)
    for side in sides(base):
        spoken[side.about].add(side.speaks)
    for cause in base.causes.values():
        has = spoken[cause.id] & {"for", "against"}
        if len(has) < 2:
            found, mend = _ONE_SIDED[next(iter(has), "")]
            here = ("cause", cause, ("id",))
            yield problem(base, "one_sided", here, _(found), _("evidence for and against"), _(mend))


def _names_used(base: RuleBase) -> tuple[set[str], set[str]]:
    """Return the facts and the findings that conditions name."""
    tests = [test for one in conditionals(base) for _path, test in conditions_in(one.condition, ())]
    return {test.fact for test in tests if test.fact}, {test.finding for test in tests if test.finding}
