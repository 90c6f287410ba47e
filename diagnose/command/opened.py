"""Case files read and diagnosed for a command; what of them could not be used is told at once."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain
from diagnose.diagnosis import Diagnosis, Diagnostician, open_rules
from diagnose.examples import in_language, is_example
from diagnose.problems import BadInputError, Problem


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


@dataclass(frozen=True, slots=True)
class Waiting:
    """A case file read and the rules opened, so that what else was typed can be checked before anything is computed."""

    path: Path
    case: Case
    diagnostician: Diagnostician
    problems: tuple[Problem, ...]

    def diagnosed(self) -> Opened:
        """Diagnose the case."""
        diagnosis = self.diagnostician.diagnose(self.case)
        problems = self.problems + diagnosis.problems
        complain(problems, str(self.path))
        return Opened(self.diagnostician, diagnosis, problems)


def waiting(path: Path, house: Sequence[Path]) -> Waiting:
    """Return a case file, not yet diagnosed.

    Raises:
        BadInputError: nothing of the file can be used.

    """
    case, problems = _read(path)
    return Waiting(path, case, open_rules(house), problems)


def opened(path: Path, house: Sequence[Path]) -> Opened:
    """Return the diagnosis of a case file.

    Raises:
        BadInputError: nothing of the file can be used.

    """
    return waiting(path, house).diagnosed()


class Told:
    """Tells problems as they come up, and remembers whether there was one."""

    exit: Exit = Exit.DONE

    def tell(self, problems: Sequence[Problem], file: str | None = None) -> None:
        """Write problems, put to `file` if they name none."""
        complain(problems, file)
        if problems:
            self.exit = Exit.BAD_INPUT


def cases_read(paths: Iterable[Path], told: Told) -> Iterator[tuple[Path, Case, tuple[Problem, ...]]]:
    """Yield each case that can be read, with the problems of its file; files that cannot be read are told."""
    for path in paths:
        try:
            case, problems = _read(path)
        except BadInputError as error:
            told.tell(error.problems)
        else:
            yield path, case, problems


def _read(path: Path) -> tuple[Case, tuple[Problem, ...]]:
    """Return a case and the problems of its file; a demo case tells its story in the language spoken."""
    case, problems = read_case(path)
    return (in_language(case) if is_example(path) else case), problems
