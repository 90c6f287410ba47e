"""What a page is made of: labelled parts, each of pieces of text, some of which lead to another entry."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain
from string import Formatter


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead to another entry."""

    table: str
    id: str
    text: str


Piece = str | Link
Run = tuple[Piece, ...]
"""Pieces that follow each other in one sentence."""


@dataclass(frozen=True, slots=True)
class Part:
    """A label and one run, or a label and a list of runs."""

    label: str
    runs: tuple[Run, ...]
    is_list: bool = False


@dataclass(frozen=True, slots=True)
class Page:
    """One entry in words."""

    table: str
    id: str
    title: str
    file: str
    house: bool
    parts: tuple[Part, ...]


def said(label: str, *pieces: Piece) -> list[Part]:
    """Return one part, none if it would say nothing."""
    kept = tuple(piece for piece in pieces if piece)
    return [Part(label, (kept,))] if kept else []


def listing(label: str, runs: Iterable[Run]) -> list[Part]:
    """Return one part with a list, none if the list is empty."""
    kept = tuple(runs)
    return [Part(label, kept, is_list=True)] if kept else []


def joined(runs: Iterable[Run], joint: str) -> Run:
    """Return runs as one, with the joint between them."""
    parts = [((joint,) if position else ()) + run for position, run in enumerate(runs)]
    return tuple(chain.from_iterable(parts))


def filled(message: str, **parts: Piece | Run) -> Run:
    """Return a message with pieces, links among them, in its named places."""
    run: list[Piece] = []
    for text, name, _spec, _conversion in Formatter().parse(message):
        part = parts[name] if name else ()
        run += [text, *(part if isinstance(part, tuple) else (part,))]
    return tuple(piece for piece in run if piece)


def plain(run: Run) -> str:
    """Return a run as text."""
    return "".join(piece if isinstance(piece, str) else piece.text for piece in run)
