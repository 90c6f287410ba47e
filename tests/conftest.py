"""What all tests share: the built-in rules opened once, a home of their own, English, and Hypothesis without a stopwatch."""

import pytest
from hypothesis import HealthCheck, settings

from diagnose import locations
from diagnose.diagnosis import Diagnostician
from diagnose.language import SOURCE, speak
from diagnose.rulebase.load import load

# the machine may be busy; a slow example is no fault
settings.register_profile("shared", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("shared")


@pytest.fixture(autouse=True)
def _own_home(tmp_path_factory, monkeypatch):
    """A developer's own files never leak into a test, nor a test's into them."""
    home = tmp_path_factory.mktemp("home")
    for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME", "HOME"):
        monkeypatch.setenv(name, str(home / name.lower()))
    monkeypatch.setenv("LANGUAGE", SOURCE)
    yield
    speak(SOURCE)


@pytest.fixture(scope="session")
def base():
    """The built-in rule base alone."""
    return load(locations.built_in_rules())


@pytest.fixture(scope="session")
def diagnostician(base):
    """The built-in rules, ready to diagnose."""
    return Diagnostician(base)
