"""One line of a ledger as a signed bar: to the right for the cause and filled, to the left against it and hollow."""

from diagnose.language import _
from diagnose.report.pictures.svg import line, picture, rectangle
from diagnose.report.words import decibans

_WIDTH, _HEIGHT = 132.0, 16.0


def weight_bar(value_db: float, most_db: float) -> str:
    """Return the bar of a weight in decibans; `most_db` fills half the width (bars side by side share it)."""
    middle = _WIDTH / 2
    length = min(1.0, abs(value_db) / most_db) * (middle - 3)
    side = "for" if value_db > 0 else "against"
    bar = rectangle((middle if value_db > 0 else middle - length, 3), length, _HEIGHT - 6, side)
    axis = line((middle, 0), (middle, _HEIGHT), "axis")
    said = _("{weight}, for the cause") if value_db > 0 else _("{weight}, against the cause")
    label = said.format(weight=decibans(value_db)) if value_db else "0 dB"
    return picture(_WIDTH, _HEIGHT, label, [bar, axis] if value_db else [axis], "bar")
