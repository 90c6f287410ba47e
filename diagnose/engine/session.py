"""Facts and rules in, firings out. The only file that knows the rule engine.

durable_rules 2.0.28 matches rightly on a narrow lane, and this file stays on it: its C module without the
Python layer above it, positive conjunctions, one pattern a name, one fact a call, nothing retracted, one
session a case, deleted at its end.
"""

import json
import threading
import weakref
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import durable_rules_engine as durable

from diagnose.engine.compile import Compiled, Pattern
from diagnose.engine.limits import PLAIN_WORD, SESSION, START, allowed_number, checked, number_fits, word_fits
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, shown
from diagnose.rulebase.logic import settled
from diagnose.rulebase.model import Evidence, Rule

_OPERATORS = {"is_not": "$neq", "below": "$lt", "above": "$gt", "at_least": "$gte", "at_most": "$lte"}

PART = 500
"""Rules a session holds at the most where they can be parted: from there on its cost grows faster than its rules."""

_START_FACT = json.dumps({"sid": SESSION, "id": START, "k": "start"})


class EngineRefusedError(BadInputError):
    """The engine could not be told a fact, or failed on the way: there is no result, not even half of one."""


@dataclass(frozen=True, slots=True)
class Firing:
    """One rule that fired, with the names that matched. Of several alternatives, all that matched count.

    An evidence rule whose condition is known to be false fires as `id~otherwise`.
    """

    rule: str
    facts: tuple[str, ...]
    findings: tuple[str, ...]


class CompiledEngine:
    """Compiled and checked rules, ready to run. May be shared by threads; one case runs at a time."""

    def __init__(self, compiled: Sequence[Compiled]) -> None:
        self._lock = threading.Lock()
        self._gives = [rule.gives for rule in compiled]
        self._firings = [Firing(rule.id, rule.names("fact"), rule.names("finding")) for rule in compiled]
        self._findings = {name for rule in compiled for name in rule.names("finding")}
        self._takes_words = {
            pattern.name: isinstance(pattern.tests[0].operand, str)
            for rule in compiled
            for pattern in rule.patterns
            if pattern.tests
        }
        self._definition = _definition(compiled)
        self._load()

    def infer(self, facts: Mapping[str, float | str], given: Iterable[str] = ()) -> tuple[Firing, ...]:
        """Return the rules that fire on these facts and on findings held already, sorted by rule.

        Numbers count to four decimals. Facts that no rule asks for are passed over.
        Raises EngineRefusedError.
        """
        told = [self._fact(name, value) for name, value in facts.items() if name in self._takes_words]
        found = set(given)
        told.extend(_finding(name) for name in found & self._findings)
        with self._lock:
            try:
                fired = self._run(told, found)
            except durable.error as error:
                raise _refused(
                    _("rule engine"), str(error), _("a case that it can run to its end")
                ) from error
        firings: dict[str, Firing] = {}
        for index in fired:
            firing = self._firings[index]
            firings[firing.rule] = _merged(firing, firings[firing.rule]) if firing.rule in firings else firing
        return tuple(sorted(firings.values(), key=lambda firing: firing.rule))

    def close(self) -> None:
        """Give the engine's memory back; nothing can be inferred afterwards."""
        with self._lock:
            self._delete()

    def _load(self) -> None:
        self._handle = durable.create_ruleset("rules", self._definition)
        self._delete = weakref.finalize(self, durable.delete_ruleset, self._handle)
        self._delete.atexit = False

    def _run(self, told: Iterable[str], found: set[str]) -> list[int]:
        fired = []
        session = self._open()
        try:
            for fact in told:
                self._tell(fact)
            step = durable.start_action_for_state(self._handle, session)
            message = step and step[1]  # {"<index of the rule>":{...what matched...}}
            while message:
                index = int(message[2 : message.index('"', 2)])
                fired.append(index)
                finding = self._gives[index]
                if finding is not None and finding not in found:
                    found.add(finding)
                    if finding in self._findings:
                        self._tell(_finding(finding))
                message = durable.complete_and_start_action(self._handle, session)
        finally:
            durable.delete_state(self._handle, SESSION)
        return fired

    def _open(self) -> int:
        """Start a session by firing its start rule; return its number.

        A session in which nothing has fired cannot be deleted without a crash.
        """
        if not self._delete.alive:
            raise _refused(_("rule engine"), _("a closed engine"), _("one that is open"))
        code, session = durable.assert_fact(self._handle, _START_FACT)
        if code:  # an interrupted case left its session behind, in what state cannot be known
            self._delete()
            self._load()
            _code, session = durable.assert_fact(self._handle, _START_FACT)
        durable.start_action_for_state(self._handle, session)
        durable.complete_and_start_action(self._handle, session)
        return int(session)

    def _tell(self, fact: str) -> None:
        code, _session = durable.assert_fact(self._handle, fact)
        if code > 1:  # 0: taken; 1: no test of it passes; 2: a fact of this hash is there already
            raise _refused(
                _("rule engine"),
                _("code {code} when told {fact}").format(code=code, fact=fact),
                _("every fact taken"),
            )

    def _fact(self, name: str, value: float | str) -> str:
        if self._takes_words[name]:
            fits, expected = word_fits(value), _(PLAIN_WORD)
        else:
            fits, expected = number_fits(value), allowed_number()
        if not fits:
            raise _refused(f"fact {name}", shown(value), expected)
        return f'{{"sid":"{SESSION}","k":"o","id":"{name}","n":"{name}","v":{json.dumps(_written(value))}}}'


class RuleEngine:
    """A rule base ready to run, in parts: a session's cost grows faster than its rules.

    The first part holds every rule that gives a finding; the others only use findings, so each runs by itself.
    """

    def __init__(self, rules: Iterable[Rule | Evidence]) -> None:
        """Load the rules; raises EngineLimitError if the engine cannot hold them."""
        compiled = checked(rules)
        self._gives = {rule.id: rule.gives for rule in compiled}
        self._parts = [CompiledEngine(part) for part in _parts(compiled)]

    def infer(self, facts: Mapping[str, float | str], given: Iterable[str] = ()) -> tuple[Firing, ...]:
        """Return the rules that fire on these facts and on findings held already, sorted by rule.

        Numbers count to four decimals. Facts that no rule asks for are passed over.
        Raises EngineRefusedError.
        """
        first, *others = self._parts
        firings = {firing.rule: firing for firing in first.infer(facts, given)}
        found = {*given, *(finding for rule in firings if (finding := self._gives[rule]))}
        for part in others:
            for firing in part.infer(facts, found):
                before = firings.get(firing.rule)
                firings[firing.rule] = _merged(firing, before) if before else firing
        return tuple(sorted(firings.values(), key=lambda firing: firing.rule))

    def close(self) -> None:
        """Give the engine's memory back; nothing can be inferred afterwards."""
        for part in self._parts:
            part.close()


def _parts(compiled: Sequence[Compiled]) -> list[Sequence[Compiled]]:
    if len(compiled) <= PART:
        return [compiled]
    giving = [rule for rule in compiled if rule.gives is not None]
    using = [rule for rule in compiled if rule.gives is None]
    return [giving, *(using[start : start + PART] for start in range(0, len(using), PART))]


def _definition(compiled: Sequence[Compiled]) -> str:
    rules = {
        str(index): {"all": [{f"c{place}": _pattern(p)} for place, p in enumerate(rule.patterns)]}
        for index, rule in enumerate(compiled)
    }
    return json.dumps({"start": {"all": [{"c0": {"k": "start"}}]}} | rules)


def _pattern(pattern: Pattern) -> dict[str, Any]:
    tests: list[dict[str, Any]] = [{"k": "o" if pattern.kind == "fact" else "f"}, {"n": pattern.name}]
    for test in pattern.tests:
        compared = {"v": _written(test.operand)}
        tests.append(compared if test.operator == "is" else {_OPERATORS[test.operator]: compared})
    return {"$and": tests}


def _written(value: float | str) -> float | str:
    """Return a value as the engine gets it: numbers as whole ten-thousandths.

    So no exponent is ever written, which it misreads, nor a decimal that depends on the locale.
    """
    return value if isinstance(value, str) else float(settled(value))


def _finding(name: str) -> str:
    return f'{{"sid":"{SESSION}","k":"f","id":"{name}","n":"{name}"}}'


def _merged(one: Firing, other: Firing) -> Firing:
    return Firing(
        one.rule,
        tuple(sorted({*one.facts, *other.facts})),
        tuple(sorted({*one.findings, *other.findings})),
    )


def _refused(key: str, found: str, expected: str) -> EngineRefusedError:
    return EngineRefusedError([Problem(None, None, key, found, expected, check="engine")])
