"""What to do: which steps, which are held back, in which order, when to look again."""

from diagnose.plan.plan import make_plan
from diagnose.plan.records import Addressed, Caution, Held, LookAgain, Plan, Row, Schedule, Step, Unasked

__all__ = [
    "Addressed",
    "Caution",
    "Held",
    "LookAgain",
    "Plan",
    "Row",
    "Schedule",
    "Step",
    "Unasked",
    "make_plan",
]
