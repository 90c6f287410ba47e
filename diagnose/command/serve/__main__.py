"""The screens of one page, in a process of their own; textual-serve starts it and speaks to it through pipes."""

import argparse
import os
import select
import sys
import threading
from pathlib import Path

from diagnose.command.main import speak_as_chosen
from diagnose.screens.app import DiagnoseApp


def main() -> None:
    """Run the screens until the page is closed."""
    speak_as_chosen()
    parser = argparse.ArgumentParser()
    parser.add_argument("--journal", type=Path)
    parser.add_argument("--rules", action="append", type=Path, default=[])
    parser.add_argument("case", nargs="?", type=Path)
    asked = parser.parse_args()
    threading.Thread(target=_end_with_the_server, daemon=True).start()
    DiagnoseApp(asked.rules, asked.case, journal=asked.journal).run()


def _end_with_the_server() -> None:
    """End at once when the server has died and nobody speaks to the screens any more; every answer is on disk."""
    pipe = select.poll()
    pipe.register(sys.stdin.fileno(), 0)  # its other end closing is told even when nothing is asked for
    pipe.poll()
    os._exit(0)


if __name__ == "__main__":
    main()
