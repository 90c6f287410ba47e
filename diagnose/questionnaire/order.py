"""Which open question comes next: subject by subject, or the most telling first."""

from collections.abc import Sequence

from diagnose.questionnaire.outline import Item


def next_open(items: Sequence[Item], current: str | None, telling: Sequence[str] = ()) -> str | None:
    """Return the id of the next question that is open, None if none is.

    `telling` holds ids, the most telling first; it may be of a moment ago, so what is open but not in it comes after
    it. Without it the questions follow in their order, from the current one on and then from the start.
    """
    ids = [item.question.id for item in items]
    start = ids.index(current) + 1 if current in ids else 0
    waiting = [item.question.id for item in (*items[start:], *items[:start]) if item.state == "open"]
    ahead = (one for one in telling if one in waiting and one != current)
    return next(ahead, waiting[0] if waiting else None)
