"""The only place that writes to the streams: data to stdout, talk to stderr; and the exit codes."""

import contextlib
import json
import os
import sys
from collections.abc import Iterable
from enum import IntEnum

from diagnose.problems import Problem


class Exit(IntEnum):
    """What the shell is told."""

    DONE = 0
    FAULTS = 1  # a check found faults
    BAD_INPUT = 2


class RefusedError(Exception):
    """What was typed cannot be used; the text is the whole sentence that says so."""


def data(text: str) -> None:
    """Write a result to stdout."""
    sys.stdout.write(text if text.endswith("\n") else text + "\n")


def document(content: object) -> None:
    """Write a result for other programs to stdout, as JSON."""
    data(json.dumps(content, indent=1, ensure_ascii=False))


def talk(text: str) -> None:
    """Write a remark to stderr."""
    sys.stderr.write(text + "\n")


def complain(problems: Iterable[Problem], file: str | None = None) -> None:
    """Write each problem as its one sentence; those that name no file are put to `file`."""
    for problem in problems:
        sentence = problem.sentence()
        talk(sentence if problem.file or not file else f"{file}, {sentence}")


def go_quiet() -> None:
    """After the reader of a pipe has gone, keep Python from complaining about it at exit."""
    with contextlib.suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
