"""`diagnose calibration` counts settled cases and tells the others."""

from diagnose import locations
from diagnose.command.main import main

DEMO = locations.demo_cases()


def test_the_demo_cases_are_counted_by_default(capsys):
    assert main(["calibration"]) == 0
    shown = capsys.readouterr()
    assert shown.err == ""
    assert f"{len(list(DEMO.glob('*.toml')))} cases, true cause 100.0 % first" in shown.out
    assert "Brier score 0.0" in shown.out


def test_given_cases_alone_are_counted_and_unsettled_ones_told(tmp_path, capsys):
    settled = next(iter(sorted(DEMO.glob("*.toml"))))
    unsettled = tmp_path / "open.toml"
    unsettled.write_text(
        'format = 1\ndate = 2026-03-01\n[answers]\nwhich_leaves = "oldest"\n', encoding="utf-8"
    )
    assert main(["calibration", str(settled), str(unsettled), str(tmp_path / "none.toml")]) == 2
    shown = capsys.readouterr()
    assert "1 case, true cause" in shown.out
    assert "open.toml, expect: found nothing, expected ids of causes" in shown.err
    assert "none.toml: found no such file" in shown.err


def test_a_picture_that_is_there_is_refused_before_any_work(tmp_path, capsys, monkeypatch):
    picture = tmp_path / "p.svg"
    picture.write_text("precious", encoding="utf-8")
    monkeypatch.setattr("diagnose.diagnosis.open_rules", lambda *_: 1 / 0)
    assert main(["calibration", "--picture", str(picture)]) == 2
    assert "--force" in capsys.readouterr().err
    assert picture.read_text(encoding="utf-8") == "precious"
