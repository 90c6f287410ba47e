"""Light at the plant: from sky and window, from a meter, from a lamp.

`DECLARED` and `measure` are what the registry takes; `read`, `year_of_light` and `alternatives` serve
screens and reports that draw the year or show what a change would bring.
"""

from diagnose.measures.light.answers import read
from diagnose.measures.light.light import DECLARED, measure
from diagnose.measures.light.ranges import Range, Year
from diagnose.measures.light.situation import Situation, this_month, year_of_light
from diagnose.measures.light.what_if import Alternative, alternatives

__all__ = (
    "DECLARED", "Alternative", "Range", "Situation", "Year", "alternatives", "measure", "read",
    "this_month", "year_of_light",
)  # fmt: skip
