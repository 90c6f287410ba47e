"""What a model expected where it refused a value, in plain words."""

import re
from collections.abc import Mapping

from pydantic_core import ErrorDetails

from diagnose.language import _, marked, ngettext, numeral, or_listed, quoted

TEXT = marked("a text in quotes")
NUMBER = marked("a number")
WHOLE = marked("a whole number")
LIST = marked("a list [ ... ]")
TABLE = marked("a table { ... }")
_DATE = marked("a date such as 2026-01-31")

_KINDS: Mapping[str, str] = {
    "string": TEXT,
    "float": NUMBER,
    "finite": NUMBER,
    "int": WHOLE,
    "bool": marked("true or false"),
    "tuple": LIST,
    "list": LIST,
    "dict": TABLE,
    "model": TABLE,
    "date": _DATE,
}
"""What a complaint's type begins with (pydantic's names) -> what was wanted."""
_BOUNDS: Mapping[str, tuple[str, str]] = {
    "greater_than": ("gt", marked("a number greater than {bound}")),
    "greater_than_equal": ("ge", marked("a number greater than or equal to {bound}")),
    "less_than": ("lt", marked("a number less than {bound}")),
    "less_than_equal": ("le", marked("a number less than or equal to {bound}")),
    "multiple_of": ("multiple_of", marked("a multiple of {bound}")),
}
_PATTERNS = (
    ("^[a-z]", marked("lower-case letters, digits and _ (beginning with a letter)")),
    ("^[A-Z]{2}", marked("a two-letter country code in capitals")),
    ("^[A-Z]-", marked("a capital letter, a hyphen and a number, such as L-50")),
)


def kind(detail: ErrorDetails) -> str:
    """Return the kind of value that a complaint asks for, as the constants name it; else the complaint's type."""
    return _KINDS.get(detail["type"].partition("_")[0], detail["type"])


def words_of(detail: ErrorDetails) -> list[str]:
    """Return the words of which one was expected."""
    return re.findall(r"'([^']*)'", str(detail.get("ctx", {}).get("expected", "")))


def wanted(detail: ErrorDetails) -> str:
    """Return what one complaint says was expected."""
    type_, context = detail["type"], detail.get("ctx", {})
    if type_ == "value_error":
        return str(context["error"])
    if type_ == "literal_error":
        return or_listed([quoted(word) for word in words_of(detail)]) or str(context["expected"])
    if type_ == "string_pattern_mismatch":
        return next(_(said) for start, said in _PATTERNS if context["pattern"].startswith(start))
    if type_ in _BOUNDS:
        name, said = _BOUNDS[type_]
        bound = context[name]
        return _(said).format(bound=numeral(bound, ",.0f" if bound == int(bound) else "g"))
    return _size(type_, context) or (_(kind(detail)) if kind(detail) != type_ else detail["msg"])


def _size(type_: str, context: Mapping[str, int]) -> str:
    if type_ == "string_too_short":
        count = context["min_length"]
        return ngettext("at least {count} character", "at least {count} characters", count).format(
            count=numeral(count, ",")
        )
    if type_ == "string_too_long":
        count = context["max_length"]
        return ngettext("at most {count} character", "at most {count} characters", count).format(
            count=numeral(count, ",")
        )
    if type_ == "too_short":
        count = context["min_length"]
        return ngettext("at least {count} entry", "at least {count} entries", count).format(
            count=numeral(count, ",")
        )
    if type_ == "too_long":
        count = context["max_length"]
        return ngettext("at most {count} entry", "at most {count} entries", count).format(
            count=numeral(count, ",")
        )
    return ""
