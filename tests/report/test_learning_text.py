"""What was learnt is told by the names of causes and the words of rules."""

import re

from diagnose.collection.learning import Learned, RuleRecord
from diagnose.report.learning_text import learned_text


def test_causes_and_rules_are_named_in_words(base):
    rule = next(one for one in base.evidence.values() if "{" in one.because)
    learned = Learned(
        cases=2,
        left_out=0,
        first_right=1,
        near_first=2,
        first_low=0.01,
        first_high=0.99,
        said_of_first=0.8,
        calibration=None,
        reliability=(),
        rules=(RuleRecord(rule.id, 2, 0, 10.0, 0.0), RuleRecord("a_rule_of_old", 0, 1, 0.0, 5.0)),
        suggestions=(),
        wrong=(("root_rot", "a_cause_of_old", 1),),
    )
    text = " ".join(learned_text(learned, base).split())
    assert f"{base.causes['root_rot'].name} -> a_cause_of_old" in text
    assert f"({rule.id})" in text
    assert "a_rule_of_old" in text  # gone from the rules: its id is all that is left
    assert not re.search(r"\{\w+\}", text)
