"""The subjects with how far each is; shown where there is room."""

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from diagnose.language import _
from diagnose.questionnaire import Progress
from diagnose.rulebase.model import Question

HERE = "\N{SINGLE RIGHT-POINTING ANGLE QUOTATION MARK}"


class SubjectsPanel(Static):
    """One line a subject; the one in hand is marked."""

    _shown = Content()

    def show(self, progress: Sequence[Progress], current: Question | None) -> None:
        """Show how far each subject is."""
        rows = []
        for one in progress:
            here = current is not None and current.subject == one.subject.id
            count = _("{done} of {total}").format(done=one.done, total=one.total)
            name = one.subject.name if len(one.subject.name) <= 22 else f"{one.subject.name[:21]}…"
            row = f"{HERE if here else ' '} {name:<22}{count:>8}"
            rows.append(Content.styled(row, "bold" if here else "$muted"))
        shown = Content("\n").join([Content.styled("  " + _("Subjects"), "$muted"), *rows])
        if not shown.is_same(self._shown):
            self._shown = shown
            self.update(shown, layout=False)  # as high as the screen
