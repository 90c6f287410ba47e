"""What the engine can hold: the bounds inside which its matching is right, checked before it sees a rule.

The bounds lie a little below those at which durable_rules 2.0.28 refuses, hangs or goes wrong, as measured.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from diagnose.engine.compile import Compiled, Pattern, compile_rules
from diagnose.language import _, marked, numeral, quoted
from diagnose.problems import BadInputError, Problem, shown
from diagnose.rulebase.logic import DECIMALS, Comparison
from diagnose.rulebase.model import Evidence, Rule

MOST_RULES = 4000  # 4,096 actions a ruleset
MOST_NAMES = 500  # of facts, and of findings; loading never ends at 513
MOST_PATTERNS = 16  # in one rule; one more and the rule falls silent
MOST_SHARERS = 250  # rules with one identical pattern; the engine reads past its list of 256
MOST_VARIANTS = 60  # different tests, and sets of tests, of one fact; a stack of 64 holds those true at once
MOST_NUMBER = 1e11  # its ten-thousandths are exact as floats, and are written without an exponent
MOST_LETTERS = 160  # of a name or word, as in rules; from 65,536 on the engine compares lengths wrongly

SESSION = "case"
START = "_"
_RESERVED = (START, f"sid-{SESSION}")  # ids of the start fact and of the session's own state
_WORD = re.compile(r"[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)?")
PLAIN_WORD = marked("a word of lower-case letters, digits and underscores")


class EngineLimitError(BadInputError):
    """Rules that the engine cannot hold; carries one Problem for each bound that is passed."""


def limits(rules: Iterable[Rule | Evidence]) -> list[Problem]:
    """Return every fault for which `RuleEngine` would refuse these rules."""
    compiled, problems = compile_rules(rules)
    return [*problems, *beyond(compiled)]


def checked(rules: Iterable[Rule | Evidence]) -> tuple[Compiled, ...]:
    """Return the rules, engine-ready, or raise EngineLimitError."""
    compiled, problems = compile_rules(rules)
    problems = (*problems, *beyond(compiled))
    if problems:
        raise EngineLimitError(problems)
    return compiled


def beyond(compiled: Sequence[Compiled]) -> Iterator[Problem]:
    """Yield a Problem for every bound that these rules pass together."""
    if len(compiled) > MOST_RULES:
        yield _fault(
            _("rules"),
            _("{count} with their alternatives").format(count=numeral(len(compiled), ",")),
            _at_most(MOST_RULES),
        )
    for rule in compiled:
        if (count := len(rule.patterns)) > MOST_PATTERNS:
            found = _("{count} facts and findings asked for together").format(count=count)
            mend = _("give a finding from some of them, and use that finding here")
            yield _fault(f"rule {rule.id}", found, _at_most(MOST_PATTERNS), mend)
    patterns = Counter(pattern for rule in compiled for pattern in rule.patterns)
    facts = {pattern.name for pattern in patterns if pattern.kind == "fact"}
    findings = {pattern.name for pattern in patterns if pattern.kind == "finding"}
    yield from _names(facts, findings)
    for pattern, count in patterns.items():
        if count > MOST_SHARERS:
            found = _("{count} rules or alternatives that ask the same of it").format(count=count)
            yield _fault(f"{pattern.kind} {pattern.name}", found, _at_most(MOST_SHARERS))
    by_fact: dict[str, list[Pattern]] = {}
    for pattern in patterns:
        if pattern.kind == "fact":
            by_fact.setdefault(pattern.name, []).append(pattern)
    for name, of_it in by_fact.items():
        yield from _variants(name, of_it)


def fnv(name: str) -> int:
    """Return the 32-bit hash by which the engine knows a fact's id (FNV-1a, Fowler, Noll and Vo)."""
    value = 0x811C9DC5
    for byte in name.encode():
        value = (value ^ byte) * 16777619 & 0xFFFFFFFF
    return value


def _names(facts: set[str], findings: set[str]) -> Iterator[Problem]:
    for kind, names in ((_("facts"), facts), (_("findings"), findings)):
        if len(names) > MOST_NAMES:
            yield _fault(
                kind, _("{count} different names in rules").format(count=len(names)), _at_most(MOST_NAMES)
            )
    for name in sorted(facts & findings):
        found = _("a fact and a finding of this name")
        yield _fault(f"finding {name}", found, _("each name for one thing"), _("rename the finding"))
    by_hash: dict[int, list[str]] = {}
    for name in (*_RESERVED, *sorted(facts | findings)):
        if name in _RESERVED or word_fits(name):
            by_hash.setdefault(fnv(name), []).append(name)
        else:
            yield _fault(_("names"), shown(name), _(PLAIN_WORD))
    for first, *others in by_hash.values():
        for other in others:
            found = _("{one} and {other}, which the engine cannot tell apart")
            found = found.format(one=quoted(first), other=quoted(other))
            mend = _("rename {name}").format(name=quoted(other))
            yield _fault(_("names"), found, _("names with different hashes"), mend)


def _variants(name: str, patterns: Sequence[Pattern]) -> Iterator[Problem]:
    tests = {test for pattern in patterns for test in pattern.tests}
    for said, count in (
        (_("{count} different tests of it in rules"), len(tests)),
        (_("{count} different sets of tests of it in rules"), len(patterns)),
    ):
        if count > MOST_VARIANTS:
            yield _fault(f"fact {name}", said.format(count=count), _at_most(MOST_VARIANTS))
    if len({isinstance(test.operand, str) for test in tests}) > 1:
        yield _fault(f"fact {name}", _("a test for a word and one for a number"), _("one or the other"))
    for test in tests:
        yield from _operand(test)


def _operand(test: Comparison) -> Iterator[Problem]:
    place, operand = f"fact {test.fact}", test.operand
    if isinstance(operand, str):
        if not word_fits(operand):
            yield _fault(place, shown(operand), _(PLAIN_WORD))
        elif test.operator not in ("is", "is_not"):
            yield _fault(
                place,
                _("{operator} a word").format(operator=test.operator),
                _("is, is_not or one_of, since words have no order"),
            )
    elif not number_fits(operand):
        yield _fault(place, shown(operand), allowed_number())
    elif round(operand, DECIMALS) != operand:
        yield _fault(
            place,
            shown(operand),
            _("at most {count} decimals").format(count=DECIMALS),
            _("use a smaller unit"),
        )


def number_fits(value: object) -> bool:
    """Tell whether a value is a number that the engine compares rightly: no boolean, nan or giant."""
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= MOST_NUMBER


def allowed_number() -> str:
    """Return in words what `number_fits` allows."""
    most = f"{MOST_NUMBER:g}"
    return _("a number between -{most} and {most}").format(most=most)


def word_fits(value: object) -> bool:
    """Tell whether a value is a name or word of the rule language."""
    return isinstance(value, str) and len(value) <= MOST_LETTERS and _WORD.fullmatch(value) is not None


def _at_most(most: int) -> str:
    return _("at most {most}").format(most=numeral(most, ","))


def _fault(key: str, found: str, expected: str, mend: str = "") -> Problem:
    return Problem(None, None, key, found, expected, mend, check="engine")
