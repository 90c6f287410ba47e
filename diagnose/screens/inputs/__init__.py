"""One widget for every kind of question, each in its own file."""

from diagnose.screens.inputs.field import AnswerField, Asked, Draft, Given, Kept, NotKnown
from diagnose.screens.inputs.kinds import field_for

__all__ = ["AnswerField", "Asked", "Draft", "Given", "Kept", "NotKnown", "field_for"]
