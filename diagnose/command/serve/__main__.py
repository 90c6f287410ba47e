"""The screens of one page, in a process of their own; textual-serve starts it and speaks to it through pipes."""

import argparse
from pathlib import Path

from diagnose.screens.app import DiagnoseApp


def main() -> None:
    """Run the screens until the page is closed."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--rules", action="append", type=Path, default=[])
    parser.add_argument("case", nargs="?", type=Path)
    asked = parser.parse_args()
    DiagnoseApp(asked.rules, asked.case).run()


if __name__ == "__main__":
    main()
