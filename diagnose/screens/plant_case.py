"""A case of a plant of the journal: each answer is in the journal before the next question shows."""

import datetime as dt
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from diagnose import locations
from diagnose.bookkeeping import Informer, keep_ranking
from diagnose.case import Case
from diagnose.diagnosis import Diagnostician
from diagnose.journal import Journal, cases, open_journal
from diagnose.journal.records import CaseRecord
from diagnose.problems import BadInputError, Problem
from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.bookmarks import read_bookmark
from diagnose.screens.journal_reads import BUSY_S
from diagnose.screens.opening import Opened, journal_mark
from diagnose.screens.questions import QuestionsScreen

if TYPE_CHECKING:
    from diagnose.screens.app import DiagnoseApp


class PlantCase:
    """The case, its questions, and the connection that keeps its answers."""

    def __init__(
        self,
        path: Path,
        rules: Diagnostician,
        plant_id: int,
        today: dt.date,
        tell: Callable[[Sequence[Problem]], None],
    ) -> None:
        """Begin a case, or go on with the one that is open; slow, so call it from a worker.

        Raises:
            BadInputError: the journal cannot be written.

        """
        self._path, self._tell = path, tell
        self._journal: Journal | None = None
        with open_journal(path) as journal:
            self._record: CaseRecord = cases.begin_case(journal, plant_id, today)
            case = Informer(journal, rules, today).case(self._record)
        self._saved = case
        at = read_bookmark(locations.bookmarks(), journal_mark(path, self._record))
        self.questionnaire = Questionnaire(rules, case, path, at_once=False, at=at, keep=self._keep)

    def _keep(self, _: Case, after: Case) -> None:
        """Write all that is not in the journal yet: what it refused once is tried again with the next answer."""
        try:
            if self._journal is None:
                self._journal = open_journal(self._path, busy_s=BUSY_S)
            cases.save_change(self._journal, self._record, self._saved, after)
        except BadInputError as error:
            self._tell(error.problems)
        else:
            self._saved = after

    def show(self, desk: "DiagnoseApp") -> None:
        """Ask the questions; when they are left, the ranking is kept."""

        def keep() -> None:
            try:
                self.keep_ranking()
            except BadInputError as error:
                desk.call_from_thread(desk.tell, error.problems, rest=False)
            desk.call_from_thread(desk.written.publish, None)

        def leave(_: None) -> None:
            self.close()
            desk.run_worker(keep, thread=True, group="keep")

        desk.push_screen(
            QuestionsScreen(Opened(self.questionnaire, record=self._record, close=self.close)), leave
        )

    def close(self) -> None:
        """Try once more to write what was refused, and close the connection."""
        if self.questionnaire.case is not self._saved:
            self._keep(self._saved, self.questionnaire.case)
        if self._journal is not None:
            self._journal.close()
            self._journal = None

    def keep_ranking(self) -> None:
        """Keep the ranking of the case as it stands, and its plan; slow, so call it from a worker.

        Raises:
            BadInputError: the journal cannot be written.

        """
        asked = self.questionnaire
        diagnosis = asked.diagnostician.diagnose(asked.case) if asked.is_behind else asked.diagnosis
        with open_journal(self._path) as journal:
            keep_ranking(journal, self._record, diagnosis)
