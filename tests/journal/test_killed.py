"""Kill -9 at 200 random moments: no acknowledged answer or count is lost, and the writer goes on where it was."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

KILLS = {"counts": 70, "answers": 60, "imports": 30, "migrations": 40}


def test_there_are_two_hundred_kills():
    assert sum(KILLS.values()) == 200


@pytest.mark.skipif(sys.platform == "win32", reason="the writer is a fork, which Windows does not have")
@pytest.mark.parametrize("what", KILLS)
def test_nothing_acknowledged_is_lost(what):
    script = Path(__file__).with_name("killed.py")
    done = subprocess.run(
        [sys.executable, script, what, str(KILLS[what]), "7"],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr
    said = re.fullmatch(
        r"\w+: (\d+) kills, (\d+) while writing, (\d+) writes acknowledged, none lost\n", done.stdout
    )
    assert said, done.stdout
    assert int(said[1]) == KILLS[what]
    assert int(said[2]) > KILLS[what] / 4  # a kill after the work is done would show nothing
    assert int(said[3]) > 0
