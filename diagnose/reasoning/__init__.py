"""Reasons: why, why not, why this over that, what would change it, what to check next, how firm.

Every file is one question a grower asks of a ranking. `chain` walks backwards through what was concluded;
`suppose` finds out what would be concluded from other answers, with the same measures and the same engine.
"""

from diagnose.reasoning.chain import Step, chain

__all__ = ["Step", "chain"]
