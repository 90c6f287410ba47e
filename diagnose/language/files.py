"""Writing `.po` files: messages gathered anew, translations made earlier kept."""

import io
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from diagnose.wholefile import write_whole


@dataclass(frozen=True, slots=True)
class Message:
    """One message to translate: its text (or the forms for one and for many), its context, and where it stands."""

    text: str | tuple[str, str]
    context: str | None = None
    place: str = ""


def refreshed(file: Path, language: str, messages: Iterable[Message]) -> tuple[str, int]:
    """Return a `.po` file's new text with these messages and its old translations; and how many lack one.

    A message whose text changed keeps nothing: an old translation of other words is worse than none.
    """
    old = _read(file, language)
    new = Catalog(locale=language, fuzzy=False)
    for message in messages:
        before = old.get(message.text, message.context)
        new.add(
            message.text,
            string=before.string if before is not None and before.string else None,
            auto_comments=[message.place] if message.place else (),
            context=message.context,
        )
    out = io.BytesIO()
    write_po(out, new, width=0, omit_header=False, sort_output=False)
    text = "\n".join(_without_dates(out.getvalue().decode()))
    return text, sum(1 for message in new if message.id and not _whole(message.string))


def write(file: Path, text: str) -> None:
    """Write a `.po` file whole, in a folder that need not exist."""
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, text.encode())


def _read(file: Path, language: str) -> Catalog:
    if not file.exists():
        return Catalog(locale=language)
    with file.open("rb") as text:
        return read_po(text, locale=language, abort_invalid=True)


def _whole(string: object) -> bool:
    return all(string) if isinstance(string, tuple | list) else bool(string)


def _without_dates(text: str) -> Iterable[str]:
    """Leave out the heading's lines that only say when and by whom: version control knows better."""
    kept = ('"Language:', '"Plural-Forms', '"Content', '"MIME', "msg", "#", '"\\')
    in_heading = True
    for line in text.split("\n"):
        in_heading = in_heading and line != ""
        if not in_heading or (line.startswith(kept) and not (line.startswith("# ") or line == "#")):
            yield line
