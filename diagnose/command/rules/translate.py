"""`diagnose rules translate`."""

from pathlib import Path

from diagnose import locations
from diagnose.command.output import Exit, complain, talk
from diagnose.language import ngettext
from diagnose.language.files import Message, refreshed, write
from diagnose.problems import BadInputError, Problem, shown
from diagnose.rulebase.load import read_folder
from diagnose.rulebase.translate import language_folders, texts_of


def translate(language: str, folder: Path | None) -> int:
    """Write the texts of a rules folder into its `.po` files of a language; keep the translations already there."""
    if not _is_language(language):
        expected = "the code of a language, such as de or pt"
        raise BadInputError([Problem(None, None, "LANGUAGE", shown(language), expected)])
    folder = folder or locations.built_in_rules()
    files, problems = read_folder(folder)
    complain(problems)
    [into] = language_folders([folder], language)
    by_kind: dict[str, list[Message]] = {}
    for file in files:
        path = Path(file.name).relative_to(folder)
        kind = path.parts[0] if len(path.parts) > 1 else "rules"
        by_kind.setdefault(kind, []).extend(
            Message(text, place=f"{path.as_posix()}: {place}")
            for text, place in texts_of(file.content)
            if text
        )
    for kind, messages in by_kind.items():
        if not messages:
            continue
        text, lacking = refreshed(into / f"{kind}.po", language, messages)
        write(into / f"{kind}.po", text)
        remark = ngettext(
            "Wrote {file}: {count} text without a translation.",
            "Wrote {file}: {count} texts without a translation.",
            lacking,
        )
        talk(remark.format(file=into / f"{kind}.po", count=lacking))
    return Exit.BAD_INPUT if problems else Exit.DONE


def _is_language(text: str) -> bool:
    from babel.core import Locale, UnknownLocaleError

    try:
        return Locale.parse(text).language == text
    except (UnknownLocaleError, ValueError):
        return False
