"""Screens over a small rule base of their own, a fixed day, and folders of each test's own."""

import datetime as dt
from pathlib import Path

import pytest

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import write_case
from diagnose.language import SOURCE, speak
from diagnose.screens.app import DiagnoseApp

HERE = Path(__file__).parent
TODAY = dt.date(2026, 11, 25)


@pytest.fixture(autouse=True)
def _frozen(monkeypatch, tmp_path):
    """Rules, demo cases and colours that no other file or setting can change."""
    for name in ("NO_COLOR", "VISUAL", "EDITOR", "TEXTUAL_THEME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr(locations, "built_in_rules", lambda: HERE / "rules")
    monkeypatch.setattr(locations, "demo_cases", lambda: tmp_path / "demo")
    demo = Case(
        date=dt.date(2026, 2, 1),
        title="Wet feet",
        story="Droops in wet soil since it got a saucer.",
        answers={
            "drooping": "whole_plant",
            "medium_when_drooping": "wet",
            "standing_water": True,
            "night_low_c": 17.0,
        },
    )
    write_case(tmp_path / "demo" / "wet_feet.toml", demo)


@pytest.fixture
def spoken_in():
    """Return a function that has another language spoken, for one test."""

    def say(language):
        assert speak(language) == ()

    yield say
    speak(SOURCE)


@pytest.fixture
def make_app(tmp_path):
    """Return a function that makes the application."""

    def make(case=None, house=()):
        return DiagnoseApp([*house], case, today=lambda: TODAY)

    return make


@pytest.fixture
def saved(tmp_path):
    """Return a function that saves a case among the grower's own and gives its path."""

    def save(name="juniper", **fields):
        path = locations.user_cases() / f"{name}.toml"
        write_case(path, Case(date=TODAY, **fields))
        return path

    return save
