"""Every path the tool reads or writes."""

import os
from pathlib import Path

import platformdirs

_PACKAGE = Path(__file__).resolve().parent
_SHIPPED = _PACKAGE / "shipped"  # inside a wheel; in a checkout the folders lie beside the package
_BASE = _SHIPPED if _SHIPPED.is_dir() else _PACKAGE.parent


def built_in_rules() -> Path:
    """Return the folder of the built-in rule base (its house/ folder included)."""
    return _BASE / "rules"


def demo_cases() -> Path:
    """Return the folder of the invented demo cases."""
    return _BASE / "cases_demo"


def demo_case_files() -> list[Path]:
    """Return the files of the demo cases, by name."""
    return sorted(demo_cases().glob("*.toml"))


def user_rules() -> Path:
    """Return the grower's own rules folder; it need not exist."""
    return platformdirs.user_config_path("diagnose") / "rules"


def new_rules() -> Path:
    """Return where new rules belong: the house/ folder of a checkout that can be written to, else the user's own."""
    house = built_in_rules() / "house"
    return house if _BASE is not _SHIPPED and os.access(house, os.W_OK) else user_rules()


def user_cases() -> Path:
    """Return the folder where new cases are saved; it need not exist."""
    return platformdirs.user_data_path("diagnose") / "cases"


def settings() -> Path:
    """Return the file of the user's settings; it need not exist."""
    return platformdirs.user_config_path("diagnose") / "settings.toml"


def bookmarks() -> Path:
    """Return the file that remembers at which question each case was left; it need not exist."""
    return platformdirs.user_state_path("diagnose") / "bookmarks.json"


def journal() -> Path:
    """Return the journal's file; it need not exist."""
    return platformdirs.user_data_path("diagnose") / "journal.sqlite"


def compiled_languages() -> Path:
    """Return the folder of compiled translations, made anew whenever one is missing; it need not exist."""
    return platformdirs.user_cache_path("diagnose") / "languages"
