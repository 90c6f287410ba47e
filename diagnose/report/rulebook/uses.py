"""Who names whom: for every entry and measure, the entries that use it."""

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping

from diagnose.measures.registry import DECLARED
from diagnose.report.rulebook.page import Link, Run
from diagnose.rulebase.check.entries import conditionals
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.model import PlantProfile
from diagnose.rulebase.resolve import conditions_in, listed
from diagnose.rulebase.rulebase import AnyEntry, RuleBase

_SOURCE_ID = re.compile(r"\b[A-Z]-\d+[a-z]?\b")


class Uses:
    """The cross-references of a rule base, made once."""

    def __init__(self, base: RuleBase, tables: Mapping[str, Mapping[str, AnyEntry]]) -> None:
        self._base = base
        self._by: dict[tuple[str, str], dict[tuple[str, str], None]] = defaultdict(dict)
        for one in conditionals(base):
            for target in self.named_in(one.condition):
                self._by[target][one.table, one.entry.id] = None
        for table, entries in tables.items():
            for entry in entries.values():
                for target in _named_by(entry):
                    self._by[target][table, entry.id] = None
        for measure in DECLARED:
            for name in measure.inputs:
                self._by["question", name]["measure", measure.name] = None
            for source in _SOURCE_ID.findall(measure.source):
                self._by["source", source]["measure", measure.name] = None

    def of(self, table: str, entry_id: str, *users: str) -> list[Run]:
        """Return links to the users of an entry: those of the given tables, or all."""
        return [
            (f"{user_table} ", Link(user_table, user, user))
            for user_table, user in self._by[table, entry_id]
            if not users or user_table in users
        ]

    def named_in(self, condition: Condition) -> Iterator[tuple[str, str]]:
        """Yield (table, id) of the questions, measures and findings that a condition names."""
        for _, test in conditions_in(condition, ()):
            term = self._base.vocabulary.get(test.fact or "")
            if test.finding:
                yield "finding", test.finding
            elif term is not None and term.source != "plant":
                yield term.source, term.name.partition(".")[0]

    def questions_behind(self, condition: Condition) -> list[str]:
        """Return the ids of all questions that a condition rests on, by way of findings and measures too."""
        inputs = {measure.name: measure.inputs for measure in DECLARED}
        giving: dict[str, list[Condition]] = defaultdict(list)
        for rule in self._base.rules.values():
            giving[rule.gives].append(rule.when)
        found: dict[str, None] = {}
        seen: set[tuple[str, str]] = set()
        work = list(self.named_in(condition))
        while work:
            table, name = work.pop(0)
            if (table, name) in seen:
                continue
            seen.add((table, name))
            if table == "finding":
                work += [target for when in giving[name] for target in self.named_in(when)]
            elif table == "measure":
                work += [
                    ("measure" if source in inputs else "question", source) for source in inputs.get(name, ())
                ]
            elif name in self._base.questions:
                found[name] = None
        return list(found)


def _named_by(entry: AnyEntry) -> Iterator[tuple[str, str]]:
    """Yield what an entry names outside its conditions."""
    for field, table in (
        ("subject", "subject"),
        ("gives", "conclusion"),  # apart from the findings that conditions name
        ("cause", "cause"),
        ("advice", "advice"),
        ("caution", "caution"),
        ("unless", "cause"),
        ("tells", "question"),
        ("origin", "source"),
        ("water_origin", "source"),
    ):
        for name in listed(getattr(entry, field, ())):
            yield table, name
    if isinstance(entry, PlantProfile):
        for origin in (*entry.traits.values(), *(need.origin for _, need in entry.needs if need)):
            for name in listed(origin):
                yield "source", name
