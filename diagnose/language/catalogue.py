"""Translations: which languages there are, which one is spoken, and their `.po` files ready for gettext.

Translators edit `.po` files and see the change at the next start: a catalogue is compiled when first needed and kept in
the user's cache until one of its files changes.
"""

import hashlib
import io
from collections.abc import Iterable, Mapping, Sequence
from gettext import GNUTranslations, NullTranslations
from pathlib import Path

from diagnose import locations
from diagnose.wholefile import write_whole

SOURCE = "en"
_FOLDER = Path(__file__).resolve().parent
_ASKED = (
    "LANGUAGE",
    "LC_ALL",
    "LC_MESSAGES",
    "LANG",
)  # in gettext's order (GNU gettext manual, "Locale variables")


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
    return SOURCE, *sorted(folder.name for folder in _FOLDER.iterdir() if any(folder.glob("*.po")))


def speak(language: str) -> None:
    """Speak a language from now on; one that there is not leaves the source's."""
    known = language in languages()
    _Spoken.language = language if known else SOURCE
    _Spoken.messages = translated_by([_FOLDER / language]) if known else NullTranslations()


def preferred(environment: Mapping[str, str]) -> str:
    """Return the language that an environment asks for, as gettext reads it; the source's if there is none of it."""
    for name in _ASKED:
        for locale in environment.get(name, "").split(":"):
            language = locale.partition(".")[0].partition("_")[0].lower()
            if language in ("c", "posix"):
                return SOURCE
            if language in languages():
                return language
    return SOURCE


def translated_by(folders: Iterable[Path]) -> NullTranslations:
    """Return the messages of all `.po` files in folders; the first file that has a message decides."""
    files = sorted(file for folder in folders if folder.is_dir() for file in folder.glob("*.po"))
    return GNUTranslations(io.BytesIO(_compiled(files))) if files else NullTranslations()


def _compiled(files: Sequence[Path]) -> bytes:
    key = hashlib.sha256()
    for file in files:
        key.update(f"{file}\0{file.stat().st_mtime_ns}\0{file.stat().st_size}\0".encode())
    kept = locations.compiled_languages() / f"{key.hexdigest()[:32]}.mo"
    try:
        return kept.read_bytes()
    except OSError:
        compiled = _compile(files)
    try:
        kept.parent.mkdir(parents=True, exist_ok=True)
        write_whole(kept, compiled)
    except OSError:
        pass  # a cache that cannot be written costs time only
    return compiled


def _compile(files: Sequence[Path]) -> bytes:
    from babel.messages.catalog import Catalog
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    whole = Catalog(locale=files[0].parent.name)
    for file in files:
        with file.open("rb") as text:
            for message in read_po(text, locale=file.parent.name):
                if message.id and whole.get(message.id, message.context) is None:
                    whole[message.id] = message
    out = io.BytesIO()
    write_mo(out, whole)
    return out.getvalue()
