"""`plan` and `report` as commands: files are never overwritten by accident, nor left half-written."""

import json
import sys

import icalendar
import jsonschema
import pytest

from diagnose import locations
from diagnose.command import main
from diagnose.command.keep.written import write_new
from diagnose.problems import BadInputError

CASE = str(locations.demo_cases() / "wet_leaves_yellow_rings.toml")


@pytest.mark.parametrize("name", ["page.html", "page.md", "PAGE.HTML"])
def test_a_report_is_written(tmp_path, capsys, name):
    out = tmp_path / name
    assert main(["report", CASE, "-o", str(out)]) == 0
    assert "Leaf spot" in out.read_text(encoding="utf-8")
    told = capsys.readouterr()
    assert told.out == ""
    assert str(out) in told.err
    assert [path.name for path in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize("arguments", [["report", CASE, "-o"], ["plan", CASE, "--calendar"]])
def test_nothing_is_overwritten_unless_forced(tmp_path, capsys, arguments):
    out = tmp_path / ("x.html" if arguments[0] == "report" else "x.ics")
    out.write_text("precious", encoding="utf-8")
    assert main([*arguments, str(out)]) == 2
    assert out.read_text(encoding="utf-8") == "precious"
    said = capsys.readouterr().err
    assert "--force" in said
    assert len(said.splitlines()) == 1
    assert main([*arguments, str(out), "--force"]) == 0
    assert out.read_text(encoding="utf-8") != "precious"


@pytest.mark.parametrize("name", ["page.docx", "page"])
def test_an_unknown_kind_of_file_is_refused(tmp_path, capsys, name):
    assert main(["report", CASE, "-o", str(tmp_path / name)]) == 2
    assert ".html, .md or .pdf" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_is_one_sentence(tmp_path, capsys):
    assert main(["report", CASE, "-o", str(tmp_path / "none" / "page.html")]) == 2
    said = capsys.readouterr().err
    assert "no such file or folder" in said
    assert "Traceback" not in said


def test_a_failing_write_leaves_what_was_there(tmp_path, monkeypatch):
    out = tmp_path / "page.html"
    out.write_bytes(b"old")

    def fails(descriptor):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", fails)
    with pytest.raises(BadInputError, match="a full disk"):
        write_new(out, b"new", force=True)
    assert out.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["page.html"]


def test_a_missing_pdf_maker_is_one_sentence(tmp_path, capsys, monkeypatch):
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    assert main(["report", CASE, "-o", str(tmp_path / "page.pdf")]) == 2
    assert "pip install 'diagnose[pdf]'" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_the_plan_as_json_follows_its_schema(capsys):
    assert main(["plan", CASE, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert main(["schema", "plan"]) == 0
    schema = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(document, schema)
    assert document["causes"][0]["id"] == "leaf_disease"
    assert document["steps"]


def test_the_plan_writes_its_days_to_a_calendar(tmp_path, capsys):
    out = tmp_path / "days.ics"
    assert main(["plan", CASE, "--calendar", str(out)]) == 0
    assert "Ring three spots" in capsys.readouterr().out
    assert icalendar.Calendar.from_ical(out.read_bytes()).walk("VEVENT")


def test_a_faulty_field_is_told_and_the_rest_still_planned(tmp_path, capsys):
    path = tmp_path / "case.toml"
    path.write_text(
        'date = 2026-01-14\n[answers]\nmedium = "soil_mix"\nmedium_now = "swampy"\n', encoding="utf-8"
    )
    assert main(["plan", str(path)]) == 2
    told = capsys.readouterr()
    assert "swampy" in told.err
    assert "What to do" in told.out
