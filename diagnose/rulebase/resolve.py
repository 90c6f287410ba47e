"""Whether every name that an entry uses exists, and every test fits its fact's type."""

from collections.abc import Iterable, Iterator, Mapping

from diagnose.language import _, gaps, marked, or_listed, quoted
from diagnose.problems import Problem, nearest, one_of, shown
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.model import Conflict, Evidence, PlantProfile, Rule
from diagnose.rulebase.rulebase import AnyEntry, RuleBase, Standing
from diagnose.rulebase.vocabulary import Term

COMMON_ORIGINS = ("common practice", "from memory")
Found = tuple[tuple[str | int, ...], str, str, str]
"""Path within the entry, found, expected, how to mend."""
_CHECKS = {
    "because": "template",
    "otherwise_because": "template",
    **dict.fromkeys(("origin", "water_origin", "traits", "needs"), "origin"),
}
"""Field -> the check that looks at it, where it is not `names`."""

_SUBJECT = marked("{name}, which no subject is called"), marked("the id of a subject")
_GIVES = marked("{name}, which no finding is called"), marked("the id of a finding")
_CAUSE = marked("{name}, which no cause is called"), marked("the id of a cause")
_ADVICE = marked("{name}, which no advice is called"), marked("the id of a piece of advice")
_CAUTION = marked("{name}, which no caution is called"), marked("the id of a caution")
_QUESTION = marked("{name}, which no question is called"), marked("the id of a question")

_FINDING = marked("it is a finding: write { finding = ... } and no more")
_FACT = marked("it is a fact: write { fact = ..., is = ... }")
_GIVEN = marked("it is a finding: give the facts from which rules conclude it")


def dangling(base: RuleBase) -> list[Problem]:
    """Return a fault for every name that nothing provides and every test that does not fit its fact."""
    return [
        Problem(
            here.file,
            None,
            f"{here.table} {entry.id}, {path[0]}",
            found,
            expected,
            mend,
            _CHECKS.get(str(path[0]), "names"),
            (here.table, here.index, *path),
        )
        for here, entry in _entries(base)
        for path, found, expected, mend in _faults(entry, here, base)
    ]


def conditions_in(
    condition: Condition, path: tuple[str | int, ...]
) -> Iterator[tuple[tuple[str | int, ...], Condition]]:
    """Yield every single test (fact or finding) of a condition with its path."""
    for name in ("all", "any"):
        for index, inner in enumerate(getattr(condition, name) or ()):
            yield from conditions_in(inner, (*path, name, index))
    if condition.fact or condition.finding:
        yield path, condition


def _entries(base: RuleBase) -> Iterator[tuple[Standing, AnyEntry]]:
    tables: dict[str, Mapping[str, AnyEntry]] = {
        "question": base.questions,
        "rule": base.rules,
        "evidence": base.evidence,
        "conflict": base.conflicts,
        "cause": base.causes,
        "plant": base.plants,
        "caution": base.cautions,
        "advice": base.advice,
    }
    for table, entries in tables.items():
        for entry in entries.values():
            yield base.standing[table, entry.id], entry


def _faults(entry: AnyEntry, here: Standing, base: RuleBase) -> Iterator[Found]:
    fields = type(entry).model_fields
    for field in ("when", "ask_when"):
        condition = getattr(entry, field) if field in fields else None
        if condition is not None:
            for path, test in conditions_in(condition, (field,)):
                yield from _test(test, path, base)
    for field, known, missing, wanted in (
        ("subject", base.subjects, *_SUBJECT),
        ("gives", base.findings, *_GIVES),
        ("cause", base.causes, *_CAUSE),
        ("advice", base.advice, *_ADVICE),
        ("unless", base.causes, *_CAUSE),
        ("caution", base.cautions, *_CAUTION),
        ("tells", base.questions, *_QUESTION),
    ):
        if field in fields:
            for name in listed(getattr(entry, field)):
                if name not in known:
                    mend = nearest(name, known)
                    yield (field,), _(missing).format(name=quoted(name)), _(wanted), mend
    if not here.house:
        yield from _origins(entry, base)
    if isinstance(entry, Rule | Evidence | Conflict):
        yield from _worked(entry, base)


def _test(test: Condition, path: tuple[str | int, ...], base: RuleBase) -> Iterator[Found]:
    if test.finding is not None:
        if test.finding not in base.findings:
            yield (
                (*path, "finding"),
                _("{name}, which no finding is called").format(name=quoted(test.finding)),
                _("the id of a finding"),
                _(_FACT) if test.finding in base.vocabulary else nearest(test.finding, base.findings),
            )
        return
    name = test.fact or ""
    term = base.vocabulary.get(name)
    if term is None:
        yield (
            (*path, "fact"),
            _("{name}, which no question, measure or plant fact provides").format(name=quoted(name)),
            _("the name of a fact"),
            _(_FINDING) if name in base.findings else nearest(name, base.vocabulary),
        )
        return
    yield from _fits(test, term, path)


def _fits(test: Condition, term: Term, path: tuple[str | int, ...]) -> Iterator[Found]:
    operator = test.operator
    operand = test.operand(operator)
    values = operand if isinstance(operand, tuple) else (operand,)
    for value in values:
        if isinstance(value, str):
            if term.is_number:
                expected = _("a number ({fact} is one)")
                if term.unit:
                    expected = _("a number in {unit} ({fact} is one)")
                expected = expected.format(unit=term.said_unit, fact=term.name)
                yield (*path, operator), _("the word {word}").format(word=quoted(value)), expected, ""
            elif value not in term.words:
                yield (
                    (*path, operator),
                    _("{word}, which {fact} never is").format(word=quoted(value), fact=term.name),
                    one_of(term.words),
                    nearest(value, term.words),
                )
        elif not term.is_number:
            yield (
                (*path, operator),
                _("the number {number}").format(number=shown(value)),
                one_of(term.words),
                "",
            )


def _origins(entry: AnyEntry, base: RuleBase) -> Iterator[Found]:
    for path, name in _origins_of(entry):
        if name not in base.sources and name not in COMMON_ORIGINS:
            expected = _("the id of a source in rules/sources, {common}").format(
                common=or_listed([quoted(origin) for origin in COMMON_ORIGINS])
            )
            yield (
                path,
                _("the origin {name}").format(name=quoted(name)),
                expected,
                nearest(name, base.sources),
            )


def _origins_of(entry: AnyEntry) -> Iterator[tuple[tuple[str | int, ...], str]]:
    fields = type(entry).model_fields
    for field in ("origin", "water_origin"):
        if field in fields:
            for name in listed(getattr(entry, field)):
                yield (field,), name
    if isinstance(entry, PlantProfile):
        for trait, origin in entry.traits.items():
            for name in listed(origin):
                yield ("traits", trait), name
        for need, value in entry.needs:
            for name in listed(value.origin if value else ()):
                yield ("needs", need), name


def _worked(entry: Rule | Evidence | Conflict, base: RuleBase) -> Iterator[Found]:
    tests = [test for _path, test in conditions_in(entry.when, ("when",))]
    known = {test.fact for test in tests if test.fact}
    texts = {"because": entry.because}
    if isinstance(entry, Evidence):
        texts["otherwise_because"] = entry.otherwise_because
        if entry.otherwise and any(test.finding for test in tests):
            yield (
                ("otherwise",),
                _("otherwise on a rule that uses a finding"),
                _("facts only (a finding is never known to be false)"),
                "",
            )
    for field, text in texts.items():
        for name in gaps(text):
            if name not in known:
                expected = _("a text without braces, as its condition asks for no fact")
                if known:
                    expected = _("one of the facts of its own condition: {names}")
                expected = expected.format(names=", ".join(sorted(known)))
                found = _("{gap} in its text").format(gap=f"{{{name}}}")
                yield (field,), found, expected, nearest(name, known)
    for field in ("fires", "silent"):
        for index, example in enumerate(getattr(entry, field)):
            for name, value in example.items():
                yield from _example_value(name, value, (field, index, name), base)


def _example_value(
    name: str, value: str | float, path: tuple[str | int, ...], base: RuleBase
) -> Iterator[Found]:
    term = base.vocabulary.get(name)
    if term is None:
        mend = _(_GIVEN) if name in base.findings else nearest(name, base.vocabulary)
        yield path, _("the unknown fact {name}").format(name=quoted(name)), _("the name of a fact"), mend
    elif isinstance(value, str) and value not in term.words:
        expected = _("a number") if term.is_number else one_of(term.words)
        yield path, f"{name} = {shown(value)}", expected, nearest(value, term.words)
    elif not isinstance(value, str) and not term.is_number:
        yield path, f"{name} = {shown(value)}", one_of(term.words), ""


def listed(value: str | Iterable[str]) -> tuple[str, ...]:
    """Return one or several names as a tuple."""
    return (value,) if isinstance(value, str) else tuple(value)
