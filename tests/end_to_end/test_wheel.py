"""The built wheel, in an empty environment away from the checkout, finds its rules and demo cases."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from diagnose.language import languages

REPOSITORY = Path(__file__).parents[2]
UV = shutil.which("uv")


@pytest.mark.skipif(UV is None, reason="uv, which builds the wheel, is not on the path")
def test_the_wheel_works_alone(tmp_path):
    def run(*command, **more):
        done = subprocess.run([*map(str, command)], capture_output=True, text=True, check=False, **more)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    # a C name the engine still uses was removed in Python 3.13; pyproject.toml says the same to `uv run`
    environment = os.environ | {"CPPFLAGS": "-DPyEval_CallObject=PyObject_CallObject"}
    environment.pop("VIRTUAL_ENV", None)
    python = tmp_path / "venv" / "bin" / "python"
    run(UV, "build", "--quiet", "--wheel", "--out-dir", tmp_path, REPOSITORY)
    run(UV, "venv", "--quiet", "--python", sys.executable, tmp_path / "venv")
    (wheel,) = tmp_path.glob("*.whl")
    run(UV, "pip", "install", "--quiet", "--python", python, wheel, env=environment, cwd=tmp_path)
    demo = run(
        python, "-c", "from diagnose import locations as l; print(l.demo_cases())", cwd=tmp_path
    ).strip()
    assert Path(demo).is_relative_to(tmp_path)
    assert "no faults" in run(python.with_name("diagnose"), "rules", "check", cwd=tmp_path)
    ranking = run(python.with_name("diagnose"), "rank", Path(demo) / "specks_and_webs.toml", cwd=tmp_path)
    assert "1  Sap-sucking pests" in ranking
    for language in languages()[1:]:
        folder = Path(demo).parent
        assert any(folder.joinpath("rules", "languages", language).glob("*.po"))
        assert any(folder.parent.joinpath("language", language).glob("*.po"))
    spoken = environment | {"LANGUAGE": "de"}
    case = Path(demo) / "specks_and_webs.toml"
    ranking = run(python.with_name("diagnose"), "rank", case, cwd=tmp_path, env=spoken)
    assert "1  Saugende Schädlinge" in ranking
    assert "„Saugende Schädlinge“ ist praktisch sicher" in ranking
