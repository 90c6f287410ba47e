"""Working through the questions of one case: what is typed, what it means, where we are, and nothing lost."""

from diagnose.questionnaire.questionnaire import Progress, Questionnaire
from diagnose.questionnaire.typed import TypedError, read_typed

__all__ = ["Progress", "Questionnaire", "TypedError", "read_typed"]
