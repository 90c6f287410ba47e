"""Suppositions apart from those of other pages: nothing else waits for them, and they stop when told to."""

import threading
from collections.abc import Callable
from types import TracebackType
from typing import Self

from diagnose.diagnosis import Diagnosis
from diagnose.measures.measure import Value
from diagnose.measures.memory import MeasureMemory
from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange, what_if, what_would_change
from diagnose.reasoning.mistaken import Mistaken, mistaken
from diagnose.reasoning.suppose import Changes, Supposed, Supposer, Supposing


class StoppedError(Exception):
    """The work was told to stop; nothing came of it."""


class Apart:
    """What other answers would do to one diagnosis; each result is worked out once and kept.

    One thread at a time: `with` waits for the one before, which ends at its next supposition once told to stop.
    """

    def __init__(self, diagnosis: Diagnosis) -> None:
        self.diagnosis = diagnosis
        self._turn = threading.Lock()
        self._supposer: Supposer | None = None
        self._supposing: _Counted | None = None
        self._mistaken: tuple[Mistaken, ...] | None = None
        self._changing: WhatWouldChange | None = None

    def __enter__(self) -> Self:
        self._turn.acquire()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._turn.release()

    def listen(self, tried: Callable[[int], None]) -> None:
        """From now on tell at every supposition how many were tried; raise StoppedError there to stop."""
        if self._supposing is None:
            self._supposer = Supposer(self.diagnosis.base)
            self._supposing = _Counted(self._supposer, self.diagnosis)
        self._supposing.tell = tried

    def what_if(self, changes: Changes) -> WhatIfAnswer:
        """Return what other answers would do. Raises AnswerError if a question does not take its answer."""
        return what_if(self._ready, changes)

    def mistaken(self) -> tuple[Mistaken, ...]:
        """Return what would come of it if one answer were wrong, answer by answer."""
        if self._mistaken is None:
            self._mistaken = mistaken(self._ready)
        return self._mistaken

    def what_would_change(self) -> WhatWouldChange:
        """Return the smallest sets of other answers that put another cause first."""
        if self._changing is None:
            self._changing = what_would_change(self._ready)
        return self._changing

    def close(self) -> None:
        """Give the engines' memory back, once nobody works with them."""
        with self:
            if self._supposer is not None:
                self._supposer.close()
            self._supposer = self._supposing = None

    @property
    def _ready(self) -> "_Counted":
        if self._supposing is None:
            raise ValueError("nobody listens yet")
        return self._supposing


class _Counted(Supposing):
    """Tells of every supposition before it is made."""

    def __init__(self, supposer: Supposer, diagnosis: Diagnosis) -> None:
        super().__init__(supposer, diagnosis, MeasureMemory())
        self.tried = 0
        self.tell: Callable[[int], None] = lambda _tried: None

    def suppose(self, changes: Changes) -> Supposed:
        """Return what would be concluded with these answers changed."""
        self.tried += 1
        self.tell(self.tried)
        return super().suppose(changes)

    def values(self, changes: Changes) -> dict[str, Value]:
        """Return the values of all facts with these answers changed."""
        self.tell(self.tried)
        return super().values(changes)
