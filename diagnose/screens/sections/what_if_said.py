"""Sentences of the page What if: how far its search is, and what it found. Owns no widgets."""

from diagnose.language import _, marked, ngettext, numeral
from diagnose.reasoning.change import WhatWouldChange

_WOULD = {
    1: marked("One other answer would: {ways}. Enter supposes one."),
    2: marked("Two other answers together would: {ways}. Enter supposes one."),
    3: marked("Three other answers together would: {ways}. Enter supposes one."),
}
"""Answers that have to be others -> how that is said."""


def tried_said(doing: str, tried: int) -> str:
    """Return what is being done and how far it is."""
    if not tried:
        return doing
    said = ngettext("{count} supposition tried so far.", "{count} suppositions tried so far.", tried)
    return f"{doing} {said.format(count=numeral(tried, ','))}"


def sets_said(changing: WhatWouldChange) -> str:
    """Return how few other answers would put another cause first, and in how many ways."""
    count, shown = changing.count, len(changing.found)
    if not count:
        text = _("No one, two or three of your {count} answers would, were they others (all were looked at).")
        if changing.cut_off:
            text = _(
                "No one, two or three of your {count} answers would, were they others "
                "(not all sets of three could be looked at)."
            )
        return text.format(count=changing.answers)
    ways = ngettext("there is {count} such change", "there are {count} such changes", count)
    if count > shown:
        ways = ngettext(
            "there is {count} such change; the {shown} shown are those that growers give most often",
            "there are {count} such changes; the {shown} shown are those that growers give most often",
            count,
        )
    return _(_WOULD[changing.size]).format(ways=ways.format(count=count, shown=shown))
