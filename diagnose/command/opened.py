"""A case file read and diagnosed for a command; what of it could not be used is told at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain
from diagnose.diagnosis import Diagnosis, Diagnostician, open_rules
from diagnose.problems import Problem


@dataclass(frozen=True, slots=True)
class Opened:
    """A diagnosed case file and all that could not be used: of the file, of its answers, of the rules."""

    diagnostician: Diagnostician
    diagnosis: Diagnosis
    problems: tuple[Problem, ...]

    @property
    def sentences(self) -> tuple[str, ...]:
        """The problems as they stand in a document."""
        return tuple(problem.sentence() for problem in self.problems)

    @property
    def exit(self) -> Exit:
        """What the shell is told once the result is out."""
        return Exit.BAD_INPUT if self.problems else Exit.DONE


def opened(path: Path, house: Sequence[Path]) -> Opened:
    """Return the diagnosis of a case file.

    Raises:
        BadInputError: nothing of the file can be used.

    """
    case, problems = read_case(path)
    diagnostician = open_rules(house)
    diagnosis = diagnostician.diagnose(case)
    problems += diagnosis.problems
    complain(problems, str(path))
    return Opened(diagnostician, diagnosis, problems)
