"""Gather the program's messages into the `.po` files of every language: `python tests/language/messages.py`.

One file a folder of `diagnose/`; translations made earlier are kept. Prints how many messages lack one.
"""

from collections.abc import Iterator
from pathlib import Path

from babel.messages.extract import extract_from_file

from diagnose.language import SOURCE, languages
from diagnose.language.files import Message, refreshed, write

PROGRAM = Path(__file__).resolve().parents[2] / "diagnose"
TEMPLATES = PROGRAM / "report" / "templates"
KEYWORDS = {"_": None, "ngettext": (1, 2), "pgettext": ((1, "c"), 2), "marked": None}


def domains() -> dict[str, list[Path]]:
    """Return name of a `.po` file -> the sources whose messages it holds."""
    found: dict[str, list[Path]] = {}
    templates = [file for suffix in ("html", "md") for file in TEMPLATES.glob(f"*.{suffix}")]
    for file in sorted([*PROGRAM.rglob("*.py"), *templates]):
        parts = file.relative_to(PROGRAM).with_suffix("").parts
        found.setdefault("_".join(parts[: max(1, min(2, len(parts) - 1))]), []).append(file)
    return found


def messages(files: list[Path]) -> Iterator[Message]:
    """Yield the messages of source files, in their order."""
    for file in files:
        method = "python" if file.suffix == ".py" else "jinja2.ext:babel_extract"
        for _line, text, _comments, context in extract_from_file(method, file, keywords=KEYWORDS):
            yield Message(text, context, file.relative_to(PROGRAM).as_posix())


def main() -> None:
    """Write every language's files anew."""
    for language in languages():
        if language == SOURCE:
            continue
        for name, files in domains().items():
            found = list(messages(files))
            file = PROGRAM / "language" / language / f"{name}.po"
            if not found:
                file.unlink(missing_ok=True)
                continue
            text, lacking = refreshed(file, language, found)
            write(file, text)
            print(f"{language} {name}: {len(found)} messages, {lacking} without a translation")


if __name__ == "__main__":
    main()
