"""The rules, loaded once by whichever thread asks first. Owns no widgets."""

import threading
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.diagnosis import Diagnostician


class RuleLoader:
    """Gives the rules to any thread; the first to ask waits while they are read."""

    def __init__(self, house: Sequence[Path]) -> None:
        self._house = tuple(house)
        self._lock = threading.Lock()
        self._loaded: Diagnostician | None = None

    @property
    def loaded(self) -> "Diagnostician | None":
        """The rules, None while nobody has read them yet."""
        return self._loaded

    def get(self) -> "Diagnostician":
        """Return the rules; reads them if need be, so call it from a worker."""
        with self._lock:
            if self._loaded is None:
                self._loaded = self._read()
            return self._loaded

    def reload(self) -> "Diagnostician":
        """Read all files again; the old rules serve until the new ones are ready."""
        fresh = self._read()
        with self._lock:
            self._loaded = fresh
        return fresh

    def _read(self) -> "Diagnostician":
        from diagnose.diagnosis import open_rules  # noqa: PLC0415 - the first screen shows before this is imported

        return open_rules(self._house)
