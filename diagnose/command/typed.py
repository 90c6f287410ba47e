"""What is typed at a prompt: lines, and words in English as in the language spoken."""

import sys

from diagnose.command.output import data
from diagnose.language import _, marked
from diagnose.questionnaire.words import words


def typed(prompt: str) -> str | None:
    """Ask for a line; None at the end of input."""
    data(prompt)
    line = sys.stdin.readline()
    return line.strip() if line else None


def is_said(line: str, words: str) -> bool:
    """Return whether a line is one of some words, `marked` and parted by bars, or of their translation."""
    return line.strip().casefold() in {*words.split("|"), *_(words).casefold().split("|")}


def is_yes(line: str) -> bool:
    """Return whether a line says yes."""
    return words().yes_no.get(line.strip().casefold()) == "yes"


def is_no(line: str) -> bool:
    """Return whether a line says no."""
    return words().yes_no.get(line.strip().casefold()) == "no"


def is_stop(line: str) -> bool:
    """Return whether a line says to leave."""
    return is_said(line, marked("stop"))
