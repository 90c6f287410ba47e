"""A cause's probability with its interval on one scale: even odds in the middle, ten times the odds every 10 dB."""

from diagnose.language import _
from diagnose.report.pictures.svg import dot, line, picture, rectangle, text
from diagnose.report.words import percent
from diagnose.rulebase.strengths import CLOSE_DB, probability

_REACH_DB = 25.0  # the scale ends here on both sides; what lies beyond is drawn at the end
_WIDTH, _HEIGHT, _EDGE = 240.0, 20.0, 8.0
_MARKS = ((-20.0, "1 %"), (-9.54, "10 %"), (0.0, "50 %"), (9.54, "90 %"), (20.0, "99 %"))


def interval_bar(score_db: float, low_db: float, high_db: float, first_db: float) -> str:
    """Return one row: the dot is the score, the line its interval, the ground what is too close to the first."""
    middle = _HEIGHT / 2
    close, first = _x(first_db - CLOSE_DB), _x(first_db)
    parts = [rectangle((close, 0), first - close, _HEIGHT, "band")]
    parts += [
        line((_x(mark), 0), (_x(mark), _HEIGHT), "axis" if mark == 0 else "grid") for mark, _words in _MARKS
    ]
    parts += [
        line((_x(low_db), middle), (_x(high_db), middle), "for", 2),
        *(line((_x(end), middle - 4), (_x(end), middle + 4), "for", 2) for end in (low_db, high_db)),
        dot((_x(score_db), middle), 4.5),
    ]
    score, low, high = (percent(probability(one)) for one in (score_db, low_db, high_db))
    label = _("{percent}, interval {low} to {high}").format(percent=score, low=low, high=high)
    return picture(_WIDTH, _HEIGHT, label, parts, "interval")


def interval_scale() -> str:
    """Return the scale that belongs above the rows."""
    parts = [text((_x(mark), 14), words, "middle", soft=True) for mark, words in _MARKS]
    return picture(_WIDTH, _HEIGHT, _("Scale from 1 % over 50 % to 99 %"), parts, "interval scale")


def _x(score_db: float) -> float:
    held = min(max(score_db, -_REACH_DB), _REACH_DB)
    return _EDGE + (held + _REACH_DB) / (2 * _REACH_DB) * (_WIDTH - 2 * _EDGE)
