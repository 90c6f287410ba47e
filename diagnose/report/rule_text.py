"""Entries of the rule base in words."""

from diagnose.report.rulebook.as_text import page_text
from diagnose.report.rulebook.pages import Pages, tables
from diagnose.report.words import with_house
from diagnose.rulebase.rulebase import AnyEntry, RuleBase

__all__ = ["entry_text", "one_liner", "tables"]


def one_liner(base: RuleBase, table: str, entry: AnyEntry) -> str:
    """Return an entry as one line: kind, id, gist, and whether it is house."""
    gist = next(
        (getattr(entry, name) for name in ("because", "text", "name", "title") if getattr(entry, name, None)),
        "",
    )
    return with_house(f"{table:<9} {entry.id:<40} {gist}", house=base.is_house(table, entry.id))


def entry_text(base: RuleBase, table: str, entry: AnyEntry) -> str:
    """Return all of an entry in words."""
    return page_text(Pages(base).of(table, entry))
