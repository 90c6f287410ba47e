"""`diagnose rules translate`."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from diagnose import locations
from diagnose.command.output import Exit, complain, talk
from diagnose.language import SOURCE, _, ngettext
from diagnose.language.files import Message, refreshed, write
from diagnose.problems import BadInputError, Problem, refusal, shown
from diagnose.rulebase.load import ReadFile, read_folder
from diagnose.rulebase.translate import language_folders, texts_of


def translate(language: str, folder: Path | None) -> int:
    """Write the texts of a rules folder into its `.po` files of a language; keep the translations already there.

    Either all of them are written or, if one of those there cannot be read, none.

    Raises:
        BadInputError: there is no such language or folder, or a file cannot be read or written.

    """
    if not _is_language(language):
        expected = _("the code of a language other than English, such as de or pt")
        raise BadInputError([Problem(None, None, _("LANGUAGE"), shown(language), expected)])
    folder = folder or locations.built_in_rules()
    if not folder.is_dir():
        found = _("a file") if folder.exists() else _("no such folder")
        raise BadInputError(
            [Problem(str(folder), None, "", found, _("a folder of rules"), _("check the name"))]
        )
    files, problems = read_folder(folder)
    complain(problems)
    [into] = language_folders([folder], language)
    messages = _by_kind(files, folder)
    if not messages:
        raise BadInputError(
            [Problem(str(folder), None, "", _("no texts to translate"), _("rules with texts in them"))]
        )
    new = {
        into / f"{kind}.po": _refreshed(into / f"{kind}.po", language, messages[kind]) for kind in messages
    }
    for file, (text, lacking) in new.items():
        _write(file, text)
        remark = ngettext(
            "Wrote {file}: {count} text without a translation.",
            "Wrote {file}: {count} texts without a translation.",
            lacking,
        )
        talk(remark.format(file=file, count=lacking))
    return Exit.BAD_INPUT if problems else Exit.DONE


def _by_kind(files: Sequence[ReadFile], folder: Path) -> Mapping[str, Sequence[Message]]:
    """Return the texts of rule files, those of one folder together."""
    found: dict[str, list[Message]] = {}
    for file in files:
        path = Path(file.name).relative_to(folder)
        kind = path.parts[0] if len(path.parts) > 1 else "rules"
        texts = [
            Message(text, place=f"{path.as_posix()}: {place}")
            for text, place in texts_of(file.content)
            if text
        ]
        if texts:
            found.setdefault(kind, []).extend(texts)
    return found


def _refreshed(file: Path, language: str, messages: Sequence[Message]) -> tuple[str, int]:
    from babel.messages.pofile import PoFileError

    line = None
    try:
        return refreshed(file, language, messages)
    except PoFileError as error:
        found, line = _("text that is no translation"), error.lineno + 1
    except UnicodeDecodeError:
        found = _("text that is not UTF-8")
    except OSError as error:
        found = refusal(error)
    except (ValueError, LookupError, TypeError, AttributeError):  # a heading that makes no sense
        found = _("a heading that cannot be read")
    mend = _("mend it or move it away; no file was written")
    raise BadInputError([Problem(str(file), line, "", found, 'msgid "..." / msgstr "..."', mend)])


def _write(file: Path, text: str) -> None:
    try:
        write(file, text)
    except OSError as error:
        expected = _("a folder that can be written to")
        mend = _("copy the rules to a folder of your own and name it")
        raise BadInputError([Problem(str(file), None, "", refusal(error), expected, mend)]) from None


def _is_language(text: str) -> bool:
    from babel.core import Locale, UnknownLocaleError

    try:
        return Locale.parse(text).language == text and text != SOURCE
    except (UnknownLocaleError, ValueError):
        return False
