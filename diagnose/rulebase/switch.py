"""What is left of a rule base when some entries are switched off, with all that stands on them.

Conditions on a switched-off question or finding stay legal: nothing provides it any longer, so they stay silent.
"""

from collections.abc import Collection, Mapping

from diagnose.rulebase.rulebase import AnyEntry

_STANDS_ON = {"gives": "finding", "cause": "cause", "subject": "subject"}
"""Fields whose entry falls with what they name."""
_LISTS = {"advice": "advice", "caution": "caution", "unless": "cause"}
"""Fields that lose a name and go on."""

Tables = Mapping[str, Mapping[str, AnyEntry]]


def without(tables: Tables, off: Collection[str]) -> dict[str, dict[str, AnyEntry]]:
    """Return the tables without the entries whose ids are off, what stands on them, and mentions of them."""
    if not off:
        return {table: dict(entries) for table, entries in tables.items()}
    gone = {table: {entry_id for entry_id in entries if entry_id in off} for table, entries in tables.items()}
    return {
        table: {
            entry_id: _forgetting(entry, gone)
            for entry_id, entry in entries.items()
            if entry_id not in off and not _falls(entry, gone)
        }
        for table, entries in tables.items()
    }


def _falls(entry: AnyEntry, gone: Mapping[str, set[str]]) -> bool:
    return any(getattr(entry, field, None) in gone[table] for field, table in _STANDS_ON.items())


def _forgetting(entry: AnyEntry, gone: Mapping[str, set[str]]) -> AnyEntry:
    kept = {
        field: tuple(name for name in names if name not in gone[table])
        for field, table in _LISTS.items()
        for names in [getattr(entry, field, ())]
        if any(name in gone[table] for name in names)
    }
    return entry.model_copy(update=kept) if kept else entry
