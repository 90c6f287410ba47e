"""Question -> the widget that takes its answer."""

from diagnose.screens.inputs.choice import ChoiceField
from diagnose.screens.inputs.field import AnswerField, Asked, Draft
from diagnose.screens.inputs.leaves import LeavesField
from diagnose.screens.inputs.place import PlaceField
from diagnose.screens.inputs.plant import PlantField
from diagnose.screens.inputs.several import SeveralField
from diagnose.screens.inputs.typed import TypedField

_FIELDS: dict[str, type[AnswerField]] = {
    "choice": ChoiceField,
    "yes_no": ChoiceField,
    "several": SeveralField,
    "number": TypedField,
    "date": TypedField,
    "place": PlaceField,
    "plant_profile": PlantField,
    "leaf_history": LeavesField,
}


def field_for(asked: Asked, draft: Draft | None = None) -> AnswerField:
    """Return the widget for a question, with what was typed into it before but not entered."""
    return _FIELDS[asked.question.kind](asked, draft)
