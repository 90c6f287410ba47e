"""`.po` files into what gettext reads, kept in the user's cache until one of them changes."""

import hashlib
import io
import re
import string
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from diagnose import locations
from diagnose.wholefile import write_whole

if TYPE_CHECKING:
    from babel.messages.catalog import Catalog, Message

_LINE = re.compile(r'((msgctxt|msgid|msgid_plural|msgstr(\[\d\])?) +)?"([^"\\]|\\.)*"|(#.*)?')


@dataclass(frozen=True, slots=True)
class BrokenFile:
    """A `.po` file that cannot be read, and the line at which reading stopped, if it can be told."""

    file: str
    line: int | None


def compiled(files: Sequence[Path], extra: str) -> tuple[bytes, tuple[BrokenFile, ...]]:
    """Return all files of one language as one catalogue, and those that had to be left out.

    The first file that translates a message decides. `extra` is the language whose names of months and days and
    whose marks in numbers go with them, or empty.
    """
    key = hashlib.sha256(extra.encode())
    for file in files:
        key.update(f"{file}\0{file.stat().st_mtime_ns}\0{file.stat().st_size}\0".encode())
    kept = locations.compiled_languages() / f"{key.hexdigest()[:32]}.mo"
    try:
        return kept.read_bytes(), ()
    except OSError:
        content, broken = _compile(files, extra)
    if not broken:  # else it is told at every start, until it is mended
        try:
            kept.parent.mkdir(parents=True, exist_ok=True)
            write_whole(kept, content)
        except OSError:
            pass  # a cache that cannot be written costs time only
    return content, broken


def gaps(text: str) -> list[str]:
    """Return the names in braces; a stray brace, or anything but a name inside, gives an odd name."""
    if "{" not in text and "}" not in text:
        return []
    try:
        parts = list(string.Formatter().parse(text))
    except ValueError:
        return [text]
    return [
        name + ("!" + conversion if conversion else "") + (":" + spec if spec else "")
        for _, name, spec, conversion in parts
        if name is not None
    ]


def _compile(files: Sequence[Path], extra: str) -> tuple[bytes, tuple[BrokenFile, ...]]:
    from babel.messages.catalog import Catalog
    from babel.messages.mofile import write_mo

    whole = Catalog(locale=files[0].parent.name)
    broken = []
    for file in files:
        read = _read(file)
        if isinstance(read, BrokenFile):
            broken.append(read)
            continue
        for message in read:
            if _usable(message) and whole.get(message.id, message.context) is None:
                whole.add(message.id, message.string, context=message.context)
    for context, text, said in _conventions(extra) if extra else ():
        whole.add(text, said, context=context)
    out = io.BytesIO()
    write_mo(out, whole)
    return out.getvalue(), tuple(broken)


def _read(file: Path) -> "Catalog | BrokenFile":
    from babel.messages.pofile import PoFileError, read_po

    try:
        text = file.read_text(encoding="utf-8")
        for number, line in enumerate(text.split("\n"), start=1):
            if _LINE.fullmatch(line.strip()) is None:  # Babel would take a text without its quotes
                return BrokenFile(str(file), number)
        return read_po(io.StringIO(text), file.parent.name, abort_invalid=True)
    except PoFileError as error:
        return BrokenFile(str(file), error.lineno + 1)
    except UnicodeDecodeError as error:
        return BrokenFile(str(file), error.object.count(b"\n", 0, error.start) + 1)
    except (OSError, ValueError, LookupError, TypeError, AttributeError):  # a heading that makes no sense
        return BrokenFile(str(file), None)


def _usable(message: "Message") -> bool:
    """Whether a message is translated for certain, and no translation of it fills in what is not there."""
    if not message.id or message.fuzzy:
        return False
    source, said = _forms(message.id), _forms(message.string)
    allowed = {name for text in source for name in gaps(text)}
    return all(text and set(gaps(text)) <= allowed for text in said)


def _forms(text: object) -> tuple[str, ...]:
    return tuple(text) if isinstance(text, list | tuple) else (str(text or ""),)


def _conventions(language: str) -> Iterator[tuple[str, str, str]]:
    """Yield context, English and the language's own for names of months and days and marks in numbers (CLDR)."""
    from babel.core import Locale

    source, own = Locale.parse("en"), Locale.parse(language)
    for width in ("wide", "abbreviated"):
        yield from _paired(f"month, {width}", source.months["format"][width], own.months["format"][width])
        yield from _paired(f"day, {width}", source.days["format"][width], own.days["format"][width])
    marks = own.number_symbols["latn"]
    yield "decimal mark", ".", marks["decimal"]
    yield "thousands mark", ",", marks["group"]


def _paired(context: str, source: dict[int, str], own: dict[int, str]) -> Iterable[tuple[str, str, str]]:
    return ((context, source[number], own[number]) for number in source)
