"""Light through the year against what the plant needs."""

from diagnose.language import _, month_short, numeral
from diagnose.measures.light import Year
from diagnose.measures.needs import LightNeed
from diagnose.report.pictures.svg import Point, area, dot, line, path, picture, rectangle, text, ticks

_WIDTH, _HEIGHT = 640.0, 280.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 8.0, 38.0, 34.0
_STEP = (_WIDTH - _LEFT - _RIGHT) / 12


def light_picture(year: Year, month: int, need: LightNeed | None, label: str) -> str:
    """Return the year: the line is the expected light, the ground its range, the dashes what is needed.

    `month` is the case's own, 0 for January.
    """
    needs = (need.least_dli_mol_m2_d, need.good_dli_mol_m2_d) if need else ()
    marks = ticks(max(*(light.high for light in year), *(1.2 * amount for amount in needs), 0.1))
    most = marks[-1]

    def at(number: float, amount: float) -> Point:
        return _LEFT + (number + 0.5) * _STEP, _TOP + (1 - amount / most) * (_HEIGHT - _TOP - _BOTTOM)

    ground = _HEIGHT - _BOTTOM
    parts = [text((_LEFT, 18), _("mol/m²/d of light at the leaf"), soft=True)]
    for mark in marks:
        y = at(0, mark)[1]
        parts += [
            line((_LEFT, y), (_WIDTH - _RIGHT, y)),
            text((_LEFT - 8, y + 4.5), numeral(mark, "g"), "end", soft=True),
        ]
    lows = [at(number, light.low) for number, light in enumerate(year)]
    highs = [at(number, light.high) for number, light in enumerate(year)]
    line_points = [at(number, light.expected) for number, light in enumerate(year)]
    parts += [area([*highs, *reversed(lows)]), path(line_points), *(dot(point, 3) for point in line_points)]
    for amount, words in zip(needs, (_("lives on {amount}"), _("grows well from {amount}")), strict=False):
        y = at(0, amount)[1]
        parts += [line((_LEFT, y), (_WIDTH - _RIGHT, y), "against", 1.5, "7 5")]
        side = (
            (_LEFT + 4, "start") if month >= 6 else (_WIDTH - _RIGHT, "end")
        )  # clear of the case's own month
        parts.append(text((side[0], y - 5), words.format(amount=numeral(amount, "g")), side[1]))
    x = at(month, 0)[0]
    parts += [
        line((x, _TOP), (x, ground), "axis", 1, "2 3"),
        rectangle((x - _STEP / 2, ground + 4), _STEP, 24, "band"),
    ]
    for number in range(12):
        parts.append(
            text(
                (at(number, 0)[0], ground + 21),
                month_short(number + 1),
                "middle",
                soft=number != month,
                bold=number == month,
            )
        )
    return picture(_WIDTH, _HEIGHT, label, parts, "chart")
