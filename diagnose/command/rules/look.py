"""`diagnose rules list` and `diagnose rules show`."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import open_rules, read_rules
from diagnose.engine import OTHERWISE
from diagnose.language import _, quoted
from diagnose.measures.registry import DECLARED
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.report.rule_text import one_liner
from diagnose.report.rulebook.as_text import page_text, part_lines
from diagnose.report.rulebook.page import listing
from diagnose.report.rulebook.pages import Pages, tables
from diagnose.rulebase.rulebase import RuleBase


def list_entries(table: str | None, house: Sequence[Path]) -> int:
    """Print one line an entry."""
    base = read_rules(house)
    known = [*tables(base), "measure"]
    if table is not None and table not in known:
        expected = _("one of {known}").format(known=", ".join(known))
        raise BadInputError([Problem(None, None, _("TABLE"), quoted(table), expected, nearest(table, known))])
    for name, entries in tables(base).items():
        if table in (None, name):
            for entry in entries.values():
                data(one_liner(base, name, entry))
    if table in (None, "measure"):
        for measure in DECLARED:
            data(f"{'measure':<9} {measure.name:<40} {_(measure.meaning)}")
    complain(base.problems)
    return Exit.BAD_INPUT if base.problems else Exit.DONE


def show(entry_id: str, house: Sequence[Path], cases: Sequence[Path]) -> int:
    """Print an entry in words, wherever it stands; of rules also in which demo cases, and others, they fire."""
    base = read_rules(house)
    pages = Pages(base)
    found = [
        pages.of(name, entries[entry_id]) for name, entries in tables(base).items() if entry_id in entries
    ]
    found += [pages.of_measure(measure) for measure in DECLARED if measure.name == entry_id]
    if not found:
        raise BadInputError([_unknown(base, entry_id)])
    texts = [page_text(page) for page in found]
    if any(page.table in ("rule", "evidence", "conflict") for page in found):
        texts.append("\n".join(_where_it_fires(entry_id, house, cases)))
    data("\n\n".join(texts))
    complain(base.problems)
    return Exit.BAD_INPUT if base.problems else Exit.DONE


def _where_it_fires(rule: str, house: Sequence[Path], cases: Sequence[Path]) -> Iterator[str]:
    diagnostician = open_rules(house)
    told = {rule: "{case}", rule + OTHERWISE: _("{case}, where its condition is known to be false")}
    fires = []
    for path in [*locations.demo_case_files(), *cases]:
        case, problems = read_case(path)
        complain(problems)
        diagnosis = diagnostician.diagnose(case)
        fires += [(told[one.rule].format(case=path.stem),) for one in diagnosis.firings if one.rule in told]
        shown = diagnostician.conflicts(diagnosis).contradictions
        fires += [(path.stem,) for one in shown if one.id == rule]
    parts = listing(_("Fires in the cases"), fires)
    yield from (line for part in parts for line in part_lines(part)[1:])
    if not parts:
        yield _("Fires in no demo case and in none of those given.") if cases else _("Fires in no demo case.")


def _unknown(base: RuleBase, entry_id: str) -> Problem:
    ids = [one for entries in tables(base).values() for one in entries] + [
        measure.name for measure in DECLARED
    ]
    if entry_id in base.switched_off:
        off = _("a house file switches it off")
        return Problem(None, None, _("ID"), quoted(entry_id), _("an entry in use"), off)
    return Problem(None, None, _("ID"), quoted(entry_id), _("the id of an entry"), nearest(entry_id, ids))
