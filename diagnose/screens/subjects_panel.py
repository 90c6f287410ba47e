"""The subjects with how far each is; shown where there is room."""

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from diagnose.questionnaire import Progress
from diagnose.rulebase.model import Question

HERE = "\N{SINGLE RIGHT-POINTING ANGLE QUOTATION MARK}"


class SubjectsPanel(Static):
    """One line a subject; the one in hand is marked."""

    def show(self, progress: Sequence[Progress], current: Question | None) -> None:
        """Show how far each subject is."""
        rows = []
        for one in progress:
            here = current is not None and current.subject == one.subject.id
            count = f"{one.done} of {one.total}"
            name = one.subject.name[:21]
            row = f"{HERE if here else ' '} {name:<22}{count:>8}"
            rows.append(Content.styled(row, "bold" if here else "$muted"))
        self.update(Content("\n").join([Content.styled("  Subjects", "$muted"), *rows]))
