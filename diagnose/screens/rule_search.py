"""Which entries of the rule base fit a search, and how each is said in one row. Owns no widgets."""

import re
from collections.abc import Collection
from dataclasses import dataclass

from textual.content import Content

from diagnose.diagnosis import Diagnosis
from diagnose.engine import OTHERWISE
from diagnose.language import _, marked, pgettext
from diagnose.report.rulebook.pages import TABLES, tables
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import AnyEntry, RuleBase

FROM = {
    "built_in": marked("built in"),
    "house": marked("house rules"),
    "fired": marked("fired in this case"),
}
_KINDS = {
    "subject": marked("subject"),
    "question": marked("question"),
    "finding": marked("finding"),
    "rule": marked("rule"),
    "evidence": marked("evidence"),
    "conflict": marked("conflict"),
    "cause": marked("cause"),
    "plant": marked("plant"),
    "advice": marked("advice"),
    "caution": marked("caution"),
    "source": marked("source"),
    "measure": marked("measure"),
}


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to look for; empty parts ask for nothing."""

    text: str = ""
    kind: str = ""
    cause: str = ""
    origin: str = ""
    """A key of `FROM`."""


@dataclass(frozen=True, slots=True)
class Found:
    """One row: an entry, or a fault (no entry) of a file that was left out."""

    table: str
    id: str
    text: str
    file: str | None
    house: bool = False
    entry: AnyEntry | None = None


def find(base: RuleBase, wanted: Wanted, fired: Collection[str]) -> list[Found]:
    """Return the faults, then the entries that fit, in the order of tables."""
    words = wanted.text.lower().split()
    rows = [Found("left out", "", problem.sentence(), problem.file) for problem in base.problems]
    rows = [row for row in rows if all(word in row.text.lower() for word in words)]
    known = tables(base)
    for table in sorted(known, key=TABLES.index):
        if wanted.kind not in ("", table):
            continue
        for entry in known[table].values():
            if _fits(base, table, entry, wanted, fired) and _has_words(entry, words):
                standing = base.standing[table, entry.id]
                rows.append(Found(table, entry.id, gist(entry), standing.file, standing.house, entry))
    return rows


def fired_ids(diagnosis: Diagnosis | None) -> frozenset[str]:
    """Return the ids of the rules that fired in a case."""
    return frozenset(f.rule.removesuffix(OTHERWISE) for f in diagnosis.firings) if diagnosis else frozenset()


def row_said(found: Found, fired: Collection[str], width: int) -> Content:
    """Return an entry's row in `width` cells: kind, what it says, and whether it is house or fired."""
    left_out = pgettext("a faulty entry of the rules", "left out")
    column = 2 + max(len(left_out), *(len(_(kind)) for kind in _KINDS.values()))
    if found.entry is None:
        said = _cut(found.text, width - column)
        return Content.assemble((f"{left_out:<{column}}", "$against bold"), said)
    marks = [pgettext("a rule of one's own", "house")] if found.house else []
    if found.table in ("rule", "evidence") and found.id in fired:
        marks.append(pgettext("a rule", "fired"))
    end = f"  ({', '.join(marks)})" if marks else ""
    said = _cut(found.text, width - column - len(end))
    return Content.assemble((f"{kind_said(found.table):<{column}}", "$accent"), said, (end, "$muted"))


def kind_said(table: str) -> str:
    """Return what an entry of a table is called."""
    return _(_KINDS[table])


def _fits(base: RuleBase, table: str, entry: AnyEntry, wanted: Wanted, fired: Collection[str]) -> bool:
    if wanted.cause and wanted.cause not in (
        getattr(entry, "cause", None),
        entry.id if table == "cause" else None,
    ):
        return False
    if wanted.origin == "fired":
        return table in ("rule", "evidence") and entry.id in fired
    return not wanted.origin or base.is_house(table, entry.id) == (wanted.origin == "house")


def _has_words(entry: AnyEntry, words: Collection[str]) -> bool:
    if not words:
        return True
    said = " ".join(
        [
            entry.id,
            entry.id.replace("_", " "),
            gist(entry),
            *listed(getattr(entry, "origin", ())),
            getattr(entry, "author", ""),
        ]
    ).lower()
    return all(word in said for word in words)


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else text[: width - 1] + "…"


def gist(entry: AnyEntry) -> str:
    """Say an entry in a line; values that a case would fill in are left open."""
    said = next(
        (str(getattr(entry, n)) for n in ("because", "text", "name", "title") if getattr(entry, n, None)), ""
    )
    return re.sub(r"\{[a-z0-9_.]+\}\.?", "…", said)
