"""Feeds the rule loader odd files for as long as one likes; any exception but BadInputError is a find.

Not collected by pytest. atheris (a coverage-guided fuzzer, Python 3.11 to 3.13) is installed only for it:

    mkdir -p build/fuzz && uv run --with atheris python tests/fuzz/rules.py build/fuzz -max_total_time=300 -max_len=4000

Beside the folder's own finds it starts from every entry of the shipped rules.
"""

import os
import stat
import sys
from pathlib import Path

import atheris

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

with atheris.instrument_imports(include=["diagnose", "tomli"]):
    from diagnose.problems import BadInputError
    from diagnose.rulebase.check import check_base
    from diagnose.rulebase.load import ReadFile, _merge
    from diagnose.rulebase.model import RuleFile
    from diagnose.tomlfiles.read import fit, read_toml

SMALL = """
subject = [{ id = "air", name = "Air" }]
cause = [{ id = "root_rot", name = "n", what = "what", looks = "looks", settles = "settles", prior_db = -5, origin = "mine" }]
[[question]]
id = "medium_now"
subject = "air"
text = "How wet is it?"
help = "Feel it."
why = "To know."
kind = "choice"
effort = "touch"
choices = [{ id = "moist", label = "moist" }, { id = "soggy", label = "soggy" }]
"""


class InMemory:
    """A file that need not be written: only what `read_toml` asks of a path."""

    def __init__(self, content: bytes) -> None:
        self.content = content

    def stat(self) -> os.stat_result:
        """Return its size, as an ordinary file's."""
        return os.stat_result((stat.S_IFREG, 0, 0, 1, 0, 0, len(self.content), 0, 0, 0))

    def read_bytes(self) -> bytes:
        """Return its bytes."""
        return self.content

    def __str__(self) -> str:
        return "fuzzed.toml"


def read(content: bytes) -> ReadFile:
    """Read one file as the loader does."""
    path = InMemory(content)
    data, text = read_toml(path)
    return ReadFile(str(path), text, True, fit(data, text, RuleFile, str(path), 50))


BUILT_IN = [ReadFile("small.toml", SMALL, False, read(SMALL.encode()).content)]


def one_input(content: bytes) -> None:
    """Load one file and, if it has the right shape, check it together with a small rule base."""
    try:
        file = read(content)
    except BadInputError as error:
        for problem in error.problems:
            problem.sentence()
        return
    base, faults = _merge([*BUILT_IN, file])
    for problem in [*faults, *([] if faults else check_base(base))]:
        problem.sentence()


def seeds(folder: Path) -> None:
    """Write every entry of the shipped rules as a file of its own, and some whole files."""
    for path in sorted((ROOT / "rules").rglob("*.toml")):
        for number, entry in enumerate(path.read_text(encoding="utf-8").split("\n\n")):
            if entry.strip().startswith("[["):
                (folder / f"{path.stem}-{number}").write_text(entry, encoding="utf-8")


if __name__ == "__main__":
    folders = [argument for argument in sys.argv[1:] if not argument.startswith("-")]
    if folders:
        seeds(Path(folders[0]))
    atheris.Setup(sys.argv, one_input)
    atheris.Fuzz()
