"""`diagnose rules check|list|show`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose import locations
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import rule_folders
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.report.rule_text import entry_text, one_liner, tables
from diagnose.rulebase.load import load
from diagnose.rulebase.rulebase import RuleBase


def check(folder: Path | None, house: Sequence[Path]) -> int:
    """Print every fault of the rules in use, or of one more folder or file on top of them."""
    from diagnose.engine import limits

    base = _load([*house, *([folder] if folder else [])])
    problems = [*base.problems, *limits([*base.rules.values(), *base.evidence.values()])]
    complain(problems)
    data(
        f"{len(base.files)} files, {counted(base)}: {len(problems) or 'no'} fault{'s' if len(problems) != 1 else ''}."
    )
    return Exit.FAULTS if problems else Exit.DONE


def list_entries(table: str | None, house: Sequence[Path]) -> int:
    """Print one line an entry."""
    base = _load(house)
    known = tables(base)
    if table is not None and table not in known:
        raise BadInputError(
            [Problem(None, None, "table", repr(table), "one of " + ", ".join(known), nearest(table, known))]
        )
    for name, entries in known.items():
        if table in (None, name):
            for entry in entries.values():
                data(one_liner(base, name, entry))
    complain(base.problems)
    return Exit.DONE


def show(entry_id: str, house: Sequence[Path]) -> int:
    """Print an entry in words, wherever it stands."""
    base = _load(house)
    known = tables(base)
    found = [(name, entries[entry_id]) for name, entries in known.items() if entry_id in entries]
    if not found:
        ids = [one for entries in known.values() for one in entries]
        raise BadInputError(
            [Problem(None, None, "id", repr(entry_id), "the id of an entry", nearest(entry_id, ids))]
        )
    data("\n\n".join(entry_text(base, name, entry) for name, entry in found))
    return Exit.DONE


def counted(base: RuleBase) -> str:
    """Return how many entries of each kind there are."""
    return ", ".join(f"{len(entries)} {name}" for name, entries in tables(base).items() if entries)


def _load(house: Sequence[Path]) -> RuleBase:
    return load(locations.built_in_rules(), rule_folders(house))
