"""How code says something: gettext's functions, in the language spoken now."""

from diagnose.language.catalogue import current


def _(message: str) -> str:
    """Return a message in the language spoken. Placeholders have names; fill them afterwards with `format`."""
    return current().gettext(message)


def ngettext(one: str, many: str, count: float) -> str:
    """Return the form of a message that goes with a count; one with a fraction goes with the form for two."""
    whole = int(count) if count == int(count) else 2  # gettext's rules know whole numbers alone
    return current().ngettext(one, many, whole)


def pgettext(context: str, message: str) -> str:
    """Return a message that means different things in different places; the context says which."""
    return current().pgettext(context, message)


def marked(message: str) -> str:
    """Mark a message that stands in a table: it is translated later, by `_`, when it is said."""
    return message
