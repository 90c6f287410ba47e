"""`diagnose learn`: what the settled cases of the journal teach."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from diagnose.case import Case
from diagnose.collection.learning import learn as learnt
from diagnose.collection.strengths import Truth, suggestions
from diagnose.command.journal.opened import opened
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import Diagnostician, open_rules
from diagnose.journal.cases import outcomes
from diagnose.journal.rankings import last_rankings
from diagnose.report.collection_json import document
from diagnose.report.learning_text import learned_text
from diagnose.rulebase.logic import truth
from diagnose.rulebase.model import Evidence


def learn(journal: Path | None, house: Sequence[Path], *, as_json: bool) -> int:
    """Print how good the rankings were, and what strengths the rules would deserve by these cases."""
    diagnostician = open_rules(house)
    complain(diagnostician.base.problems)
    with opened(journal) as book:
        ends, ranked = outcomes(book), last_rankings(book)
    base = diagnostician.base
    own = [rule for rule in base.evidence.values() if base.is_house("evidence", rule.id)]
    settled = [(ends[case_id].cause, one.case) for case_id, one in ranked.items() if case_id in ends]
    held = [(cause, _held(diagnostician, own, case)) for cause, case in settled] if own else []
    found = learnt(ranked.values(), ends, suggestions(own, held))
    data(document("learned", found) if as_json else learned_text(found, base))
    return Exit.DONE


def _held(diagnostician: Diagnostician, rules: Sequence[Evidence], case: Case) -> Mapping[str, Truth]:
    """Return whether each rule, as it is today, held in a case as it was told then."""
    diagnosis = diagnostician.diagnose(case)
    base, values = diagnosis.base, diagnosis.gathered.values
    findings = {rule.gives for firing in diagnosis.firings if (rule := base.rules.get(firing.rule))}
    return {rule.id: truth(rule.when, values, findings) for rule in rules}
