"""The rules' own texts in another language: which fields are texts, and a rule base with all of them translated.

A rules folder may hold `languages/<language>/*.po`, keyed by the text as written; what has no translation stays so.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from gettext import NullTranslations
from pathlib import Path
from typing import Any

from diagnose.measures.registry import DECLARED
from diagnose.rulebase.model import RuleFile
from diagnose.rulebase.rulebase import FIELDS, AnyEntry, RuleBase
from diagnose.rulebase.vocabulary import vocabulary

LANGUAGES = "languages"
TEXTS: Mapping[str, tuple[str, ...]] = {
    "subject": ("name",),
    "question": ("text", "help", "why", "skip_because", "choices"),
    "finding": ("text",),
    "rule": ("because", "disputed"),
    "evidence": ("because", "otherwise_because", "strength_from", "disputed"),
    "conflict": ("because", "disputed"),
    "cause": ("name", "what", "looks", "settles"),
    "plant": ("name", "toxicity", "notes"),
    "caution": ("text",),
    "advice": ("text", "how", "hold_until", "expect"),
    "source": (),
}
"""Table -> its fields that a grower reads; of a choice these are its label and help."""
_OF_CHOICE = ("label", "help")


def language_folders(folders: Iterable[Path], language: str) -> list[Path]:
    """Return where rules folders keep a language."""
    return [folder / LANGUAGES / language for folder in folders]


def texts_of(file: RuleFile) -> Iterator[tuple[str, str]]:
    """Yield each text of a rule file, with the place it stands at, such as `question air_feel, why`."""
    for table, fields in TEXTS.items():
        for entry in getattr(file, table):
            for field in fields:
                if field == "choices":
                    for choice in entry.choices:
                        for part in _OF_CHOICE:
                            yield getattr(choice, part), f"{table} {entry.id}, {choice.id}, {part}"
                else:
                    yield getattr(entry, field), f"{table} {entry.id}, {field}"


def translated(base: RuleBase, messages: NullTranslations) -> RuleBase:
    """Return the rule base with every text in the language of the messages; its hash stays that of its files."""
    say = partial(_say, messages)
    tables = {
        FIELDS[table]: {entry_id: _entry(table, entry, say) for entry_id, entry in _entries(base, table)}
        for table in TEXTS
    }
    said = replace(base, **tables)  # type: ignore[arg-type]
    return replace(said, vocabulary=vocabulary(said.questions.values(), said.plants.values(), DECLARED))


def _entries(base: RuleBase, table: str) -> Iterable[tuple[str, AnyEntry]]:
    entries: Mapping[str, AnyEntry] = getattr(base, FIELDS[table])
    return entries.items()


def _entry(table: str, entry: AnyEntry, say: Callable[[str], str]) -> AnyEntry:
    said: dict[str, Any] = {}
    for field in TEXTS[table]:
        value = getattr(entry, field)
        if field == "choices":
            said[field] = tuple(
                choice.model_copy(update={part: say(getattr(choice, part)) for part in _OF_CHOICE})
                for choice in value
            )
        else:
            said[field] = say(value)
    return entry.model_copy(update=said) if said else entry


def _say(messages: NullTranslations, text: str) -> str:
    return messages.gettext(text) if text else text  # an empty one would give the catalogue's heading
