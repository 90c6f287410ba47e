"""Reliability diagram: what was stated against what came true; on the diagonal the stated probabilities are honest."""

import math

from diagnose.calibration import Bin, Calibration
from diagnose.language import _
from diagnose.measures.measure import percentage
from diagnose.report.pictures.svg import dot, line, picture, text
from diagnose.report.words import percent

_SIDE, _LEFT, _TOP = 320.0, 64.0, 16.0
_WIDTH, _HEIGHT = _LEFT + _SIDE + 24, _TOP + _SIDE + 56
_MARKS = (0.0, 0.25, 0.5, 0.75, 1.0)
_Z = 1.959964  # 97.5 % quantile of the normal distribution


def reliability_diagram(found: Calibration) -> str:
    """Return the diagram: a dot for each bin with its 95 % interval, the count beside it."""
    parts = [line(_at(mark, 0), _at(mark, 1)) for mark in _MARKS] + [
        line(_at(0, mark), _at(1, mark)) for mark in _MARKS
    ]
    parts += [line(_at(0, 0), _at(1, 1), "axis", dashes="4 3")]
    for mark in _MARKS:
        x, y = _at(mark, 0)
        parts.append(text((x, y + 18), percentage(mark), "middle", soft=True))
        x, y = _at(0, mark)
        parts.append(text((x - 8, y + 4), percentage(mark), "end", soft=True))
    for one in found.bins:
        low, high = wilson(one.came_true, one.count)
        parts.append(line(_at(one.stated, low), _at(one.stated, high), "for", 2))
        parts.append(dot(_at(one.stated, one.came_true)))
        x, y = _at(one.stated, one.came_true)
        parts.append(text((x + 7, y - 6), str(one.count), soft=True))
    parts.append(
        text((_LEFT, _TOP + _SIDE + 44), _("across: stated; up: came true; beside: how many"), soft=True)
    )
    return picture(_WIDTH, _HEIGHT, _said(found.bins), parts, "reliability")


def wilson(share: float, count: int) -> tuple[float, float]:
    """Return the 95 % score interval of a share (Wilson 1927, J. Am. Stat. Assoc. 22:209-212)."""
    middle = (share + _Z**2 / (2 * count)) / (1 + _Z**2 / count)
    half = _Z / (1 + _Z**2 / count) * math.sqrt(share * (1 - share) / count + _Z**2 / (4 * count**2))
    return max(0.0, middle - half), min(1.0, middle + half)


def _at(stated: float, came_true: float) -> tuple[float, float]:
    return _LEFT + stated * _SIDE, _TOP + (1 - came_true) * _SIDE


def _said(bins: tuple[Bin, ...]) -> str:
    row = _("stated {stated}, came true {came_true} of {count}")
    rows = (
        row.format(stated=percent(one.stated), came_true=percentage(one.came_true), count=one.count)
        for one in bins
    )
    return _("Reliability: {rows}").format(rows="; ".join(rows))
