"""Entries of the rule base in words."""

from diagnose.report.rulebook.as_text import page_text
from diagnose.report.rulebook.pages import Pages, tables
from diagnose.rulebase.rulebase import AnyEntry, RuleBase

__all__ = ["entry_text", "one_liner", "tables"]


def one_liner(base: RuleBase, table: str, entry: AnyEntry) -> str:
    """Return an entry as one line: kind, id, gist, and whether it is house."""
    gist = next(
        (getattr(entry, name) for name in ("because", "text", "name", "title") if getattr(entry, name, None)),
        "",
    )
    house = " (house)" if base.is_house(table, entry.id) else ""
    return f"{table:<9} {entry.id:<40} {gist}{house}"


def entry_text(base: RuleBase, table: str, entry: AnyEntry) -> str:
    """Return all of an entry in words."""
    return page_text(Pages(base).of(table, entry))
