"""Two other ways to run a rule base, each written apart from the code it checks."""

import itertools
from typing import Any

from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.model import Evidence, Rule

Facts = dict[str, float | str]
_numbers = itertools.count()


def holds(when: Condition, facts: Facts, held: set[str]) -> bool | None:
    """Return whether a condition is known to hold; None if that is unknown."""
    if when.finding is not None:
        return True if when.finding in held else None
    if when.any or when.all:
        parts = [holds(part, facts, held) for part in when.any or when.all or ()]
        decisive = bool(when.any)
        return decisive if decisive in parts else (None if None in parts else not decisive)
    value = facts.get(when.fact or "")
    if value is None:
        return None
    if isinstance(value, float):
        value = round(value, 4)
    tests: dict[str, Any] = {
        "is": lambda x: value == x,
        "is_not": lambda x: value != x,
        "one_of": lambda x: value in x,
        "below": lambda x: value < x,
        "above": lambda x: value > x,
        "at_least": lambda x: value >= x,
        "at_most": lambda x: value <= x,
        "between": lambda x: x[0] <= value <= x[1],
    }
    return bool(tests[when.operator](when.operand(when.operator)))


def naive(
    rules: list[Rule | Evidence], facts: Facts, given: tuple[str, ...] = ()
) -> tuple[set[str], set[str]]:
    """Try every rule until nothing new comes; return the ids fired and the findings held."""
    fired: set[str] = set()
    held = set(given)
    while True:
        before = len(fired)
        for rule in rules:
            known = holds(rule.when, facts, held)
            if known:
                fired.add(rule.id)
                if isinstance(rule, Rule):
                    held.add(rule.gives)
            elif known is False and isinstance(rule, Evidence) and rule.otherwise:
                fired.add(f"{rule.id}~otherwise")
        if len(fired) == before:
            return fired, held


class Clips:
    """The same rules in CLIPS, which has alternatives of its own; nothing is multiplied out here."""

    def __init__(self, rules: list[Rule | Evidence]) -> None:
        import clips

        self.environment = clips.Environment()
        self.environment.build("(deftemplate o (slot n) (slot v))")
        self.environment.build("(deftemplate f (slot n))")
        self.environment.build("(deftemplate fired (slot id))")
        for rule in rules:
            then = f'(assert (fired (id "{rule.id}")))'
            if isinstance(rule, Rule):
                then += f' (assert (f (n "{rule.gives}")))'
            self.environment.build(f"(defrule {rule.id} {_lhs(rule.when)} => {then})")
            if isinstance(rule, Evidence) and rule.otherwise:
                name = f"{rule.id}~otherwise"
                denied = _lhs(rule.when, denied=True)
                self.environment.build(
                    f'(defrule {rule.id}_otherwise {denied} => (assert (fired (id "{name}"))))'
                )

    def run(self, facts: Facts) -> set[str]:
        """Return the ids fired."""
        self.environment.reset()
        template = self.environment.find_template("o")
        for name, value in facts.items():
            template.assert_fact(n=name, v=value if isinstance(value, str) else round(float(value), 4))
        self.environment.run()
        return {fact["id"] for fact in self.environment.facts() if fact.template.name == "fired"}


def _lhs(when: Condition, *, denied: bool = False) -> str:
    if when.finding is not None:
        return f'(f (n "{when.finding}"))'
    if when.any or when.all:
        parts = " ".join(_lhs(part, denied=denied) for part in when.any or when.all or ())
        return f"({'or' if bool(when.any) != denied else 'and'} {parts})"
    operand: Any = when.operand(when.operator)
    values = operand if isinstance(operand, tuple) else (operand,)
    written = [f'"{value}"' if isinstance(value, str) else repr(value) for value in values]
    variable = f"?v{next(_numbers)}"
    test = (
        {
            "is": "(eq V {0})" if isinstance(operand, str) else "(= V {0})",
            "is_not": "(neq V {0})",
            "one_of": f"(or {' '.join(f'(eq V {word})' for word in written)} FALSE)",
            "below": "(< V {0})",
            "above": "(> V {0})",
            "at_least": "(>= V {0})",
            "at_most": "(<= V {0})",
            "between": "(<= {0} V {1})" if when.between else "",
        }[when.operator]
        .format(*written)
        .replace("V", variable)
    )
    return f'(o (n "{when.fact}") (v {variable}&:{f"(not {test})" if denied else test}))'
