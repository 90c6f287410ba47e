"""The command line: parse, choose a face, set the exit code."""

from diagnose.command.main import main

__all__ = ["main"]
