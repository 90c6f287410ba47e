"""Translations: which languages there are, which one is spoken, and its messages.

Translators edit `.po` files and see the change at the next start.
"""

import io
from collections.abc import Iterable, Mapping
from gettext import GNUTranslations, NullTranslations
from pathlib import Path

from diagnose.language.compiled import BrokenFile, compiled

SOURCE = "en"
_FOLDER = Path(__file__).resolve().parent
_ASKED = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")
"""In gettext's order (GNU gettext manual, "Locale variables")."""


class _Spoken:
    """What `speak` chose: one language for the whole process, as its terminal shows one."""

    language = SOURCE
    messages: NullTranslations = NullTranslations()


def current() -> NullTranslations:
    """Return the messages of the language spoken."""
    return _Spoken.messages


def spoken() -> str:
    """Return the language spoken, such as `en` or `de`."""
    return _Spoken.language


def languages() -> tuple[str, ...]:
    """Return every language the program can speak, the source's first."""
    return SOURCE, *sorted(folder.name for folder in _FOLDER.iterdir() if any(folder.glob("[!.]*.po")))


def speak(language: str) -> tuple[BrokenFile, ...]:
    """Speak a language from now on; one that there is not leaves the source's.

    Return the files that could not be read; what they hold is said in the source's language.
    """
    known = language in languages()
    _Spoken.language = language if known else SOURCE
    _Spoken.messages, broken = (
        _translations([_FOLDER / language], language) if known else (NullTranslations(), ())
    )
    return broken


def preferred(environment: Mapping[str, str]) -> str:
    """Return the language that an environment asks for, as gettext reads it; the source's if there is none of it."""
    known = languages()
    for name in _ASKED:
        for locale in environment.get(name, "").split(":"):
            language = locale.partition(".")[0].partition("_")[0].lower()
            if language in ("c", "posix"):
                return SOURCE
            if language in known:
                return language
    return SOURCE


def translated_by(folders: Iterable[Path]) -> tuple[NullTranslations, tuple[BrokenFile, ...]]:
    """Return the messages of all `.po` files in folders, and the files that could not be read.

    The first file that translates a message decides.
    """
    return _translations(folders, "")


def _translations(
    folders: Iterable[Path], conventions: str
) -> tuple[NullTranslations, tuple[BrokenFile, ...]]:
    files = [file for folder in folders if folder.is_dir() for file in sorted(folder.glob("[!.]*.po"))]
    if not files:
        return NullTranslations(), ()
    content, broken = compiled(files, conventions)
    return GNUTranslations(io.BytesIO(content)), broken
