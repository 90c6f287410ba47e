"""Small pictures as SVG text. Pure: numbers in, markup out; every one is told in words beside it as well.

Colours stand as plain attributes, so that a picture works by itself and on paper; a page's style sheet may
replace them by class, for instance in the dark. Nothing is told by colour alone: what speaks for is filled,
what speaks against is hollow, lines are named where they end.
"""

from diagnose.report.pictures.leaves import leaves_picture
from diagnose.report.pictures.ledger import weight_bar
from diagnose.report.pictures.light import light_picture
from diagnose.report.pictures.ranking import interval_bar, interval_scale

__all__ = ["interval_bar", "interval_scale", "leaves_picture", "light_picture", "weight_bar"]
