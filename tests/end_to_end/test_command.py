"""The real command in a process of its own: what it prints, where, and its exit code."""

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from diagnose import locations

DEMO = locations.demo_cases()


@pytest.fixture
def run(tmp_path):
    def run(*arguments, typed="", **environment):
        command = Path(sys.executable).with_name("diagnose")
        home = {name: str(tmp_path / "home") for name in ("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME")}
        return subprocess.run(
            [command, *map(str, arguments)],
            cwd=tmp_path,
            input=typed,
            capture_output=True,
            text=True,
            encoding="utf-8",
            check=False,
            env=os.environ | home | environment,
        )

    return run


def test_rank_prints_the_order_and_its_reasons(run):
    done = run("rank", DEMO / "soggy_after_the_big_pot.toml")
    assert (done.returncode, done.stderr) == (0, "")
    assert "1  Rotting roots" in done.stdout
    assert "Why rotting roots" in done.stdout
    assert "Not known:" in done.stdout
    assert "\x1b" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_rank_json_follows_its_schema(run):
    document = json.loads(run("rank", "--json", DEMO / "dim_corner_in_december.toml").stdout)
    schema = json.loads(run("schema", "ranking").stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(document, schema)
    first = document["causes"][0]
    assert first["id"] == "energy_deficit"
    assert first["rank"] == 1
    assert first["score_db"] == sum(line["decibans"] for line in first["lines"])
    assert document["version"] == 1


def test_several_cases_give_a_list(run):
    cases = sorted(DEMO.glob("*.toml"))[:2]
    documents = json.loads(run("rank", "--json", *cases).stdout)
    assert [Path(document["case"]).name for document in documents] == [path.name for path in cases]


def test_why_goes_down_to_the_answers(run):
    done = run("why", DEMO / "dim_corner_in_december.toml", "energy_deficit")
    assert done.returncode == 0
    assert "you answered" in done.stdout
    assert "mol/m²/d" in done.stdout
    assert "assumed:" in done.stdout


def test_an_unknown_cause_is_one_sentence(run):
    done = run("why", DEMO / "dim_corner_in_december.toml", "root_rott")
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.strip().endswith("did you mean 'root_rot'.")
    assert done.stderr.count("\n") == 1


def test_bad_fields_are_told_and_the_rest_is_ranked(run, tmp_path):
    case = tmp_path / "case.toml"
    case.write_text(
        "date = 2026-01-14\n[place]\nlatitude = 95\n[answers]\n"
        'medium = "soil"\nmedium_now = "soggy"\nroot_smell = "foul"\nhumidity_percent = 140\n'
        "[[leaf_history]]\ndate = 2026-01-01\npresent = 6\n[[leaf_history]]\ndate = 2026-01-08\npresent = 9\nnew = 1\nlost = 1\n"
    )
    done = run("rank", case)
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 4
    for words in ("latitude", "medium: found 'soil'", "140", "leaf_history"):
        assert words in done.stderr
    assert "1  Rotting roots" in done.stdout


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", b"date = ", b"date = 2026-13-01", b"[[[["])
def test_a_file_that_is_no_case_is_one_sentence(run, tmp_path, content):
    (tmp_path / "case.toml").write_bytes(content)
    done = run("rank", "case.toml")
    assert (done.returncode, done.stdout) == (2, "")
    assert "Traceback" not in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_a_faulty_house_file_is_left_out_and_told_on_the_ranking(run, tmp_path):
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "bad.toml").write_text("[[evidence]]\nid = 'x'\n")
    done = run("rank", "--rules", "own", DEMO / "forgotten_in_july.toml")
    assert done.returncode == 2
    assert "bad.toml, line 1" in done.stderr
    assert "1  Too dry at the roots" in done.stdout


def test_the_built_in_rules_pass_their_check(run):
    done = run("rules", "check")
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("what", ["case", "rules", "ranking"])
def test_schemas_are_json_schemas(run, what):
    jsonschema.Draft202012Validator.check_schema(json.loads(run("schema", what).stdout))


def test_every_demo_case_fits_the_published_case_schema(run):
    import tomli

    schema = json.loads(run("schema", "case").stdout)
    for path in DEMO.glob("*.toml"):
        plain = json.loads(json.dumps(tomli.loads(path.read_text(encoding="utf-8")), default=str))
        jsonschema.validate(plain, schema)


def test_ask_in_plain_lines_keeps_every_answer(run, tmp_path):
    typed = "nonsense\nalocasia\nhelp\n?\nundo\nstop\n"
    done = run("ask", "new.toml", typed=typed)
    assert done.returncode == 0
    assert "No profile is called 'nonsense'" in done.stdout
    assert 'profile = "alocasia"' in (tmp_path / "new.toml").read_text()
    assert "Too little is known" in done.stdout
    again = run("ask", "new.toml", typed="stop\n")
    assert "1 of" in again.stdout


def test_without_a_terminal_the_screens_say_so(run):
    done = run()
    assert done.returncode == 2
    assert "need a terminal" in done.stderr


def test_a_closed_pipe_is_no_error(tmp_path):
    command = Path(sys.executable).with_name("diagnose")
    script = f'"{command}" rules list | head -n 1'
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", script], capture_output=True, text=True, check=False
    )
    assert "Traceback" not in done.stderr
    assert "Exception" not in done.stderr


@pytest.mark.parametrize(
    "environment",
    [
        {"LANGUAGE": "de"},
        {"LANGUAGE": "nl:de_AT:en"},
        {"LANGUAGE": "", "LC_ALL": "de_DE.UTF-8"},
        {"LANGUAGE": "", "LC_ALL": "", "LC_MESSAGES": "", "LANG": "de_CH"},
    ],
)
def test_the_environment_chooses_the_language(run, environment):
    assert run("--help", **environment).stdout.startswith("Aufruf: diagnose")
    done = run("rank", **environment)
    assert (done.returncode, done.stdout) == (2, "")
    assert "diese Argumente fehlen: FALL" in done.stderr


@pytest.mark.parametrize("language", ["C", "en_GB", "xx", "../de", ""])
def test_what_is_no_language_of_ours_is_english(run, language):
    assert run("--help", LANGUAGE=language, LC_ALL="C").stdout.startswith("usage: diagnose")


def test_documents_for_programs_keep_their_ids_and_numbers_in_every_language(run):
    case = DEMO / "soggy_after_the_big_pot.toml"
    english, german = (json.loads(run("rank", case, "--json", LANGUAGE=code).stdout) for code in ("en", "de"))
    assert [one["id"] for one in german["causes"]] == [one["id"] for one in english["causes"]]
    assert [one["score_db"] for one in german["causes"]] == [one["score_db"] for one in english["causes"]]
    assert german["causes"][0]["name"] != english["causes"][0]["name"]
