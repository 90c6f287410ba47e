"""How the command line is read: argparse in the language spoken, and numbers as people write them."""

import argparse

from diagnose.language import _, marked, ngettext, quoted

ARGPARSE_SAYS = (
    marked("usage: "),
    marked("options"),
    marked("positional arguments"),
    marked("show this help message and exit"),
    marked("%(prog)s: error: %(message)s\n"),
    marked("argument %(argument_name)s: %(message)s"),
    marked("the following arguments are required: %s"),
    marked("one of the arguments %s is required"),
    marked("not allowed with argument %s"),
    marked("expected one argument"),
    marked("expected at most one argument"),
    marked("expected at least one argument"),
    marked("ignored explicit argument %r"),
    marked("unrecognized arguments: %s"),
    marked("ambiguous option: %(option)s could match %(matches)s"),
    marked("invalid choice: %(value)r (choose from %(choices)s)"),
)
"""The texts of argparse that a command of ours can bring forth."""


def speak_as_we_do() -> None:
    """Give argparse our catalogue: it asks its module's own names for gettext's functions and offers no other way."""
    argparse._ = _  # type: ignore[attr-defined]
    argparse.ngettext = ngettext  # type: ignore[attr-defined]


def whole_number(text: str) -> int:
    """Return the whole number that was typed.

    Raises:
        ArgumentTypeError: it is none.

    """
    try:
        return int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            _("expected a whole number, found {found}").format(found=quoted(text))
        ) from None


def decimal(text: str) -> float:
    """Return the number that was typed, with a point or a comma.

    Raises:
        ArgumentTypeError: it is none.

    """
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise argparse.ArgumentTypeError(
            _("expected a number, found {found}").format(found=quoted(text))
        ) from None
