"""Light through the year against what the plant lives on and what it grows well from."""

from textual_plotext.plot import Plot

from diagnose.measures.light import MONTHS, Year
from diagnose.measures.needs import LightNeed
from diagnose.report.pictures.svg import ticks
from diagnose.screens.charts.chart import LINE, Drawing, Inks


def light_chart(year: Year, month: int, need: LightNeed | None) -> Drawing:
    """Return the drawing; `month` is the case's own, 0 for January."""
    needs = (
        ((need.least_dli_mol_m2_d, "lives on"), (need.good_dli_mol_m2_d, "grows well from")) if need else ()
    )

    def draw(plot: Plot, inks: Inks) -> None:
        months = [float(n) for n in range(12)]
        scale = ticks(max(*(light.high for light in year), *(1.2 * amount for amount, _ in needs), 0.1), 4)
        plot.ylim(0, scale[-1])
        plot.xlim(-0.5, 11.5)
        plot.yticks(scale, [f"{mark:g}" for mark in scale])
        plot.xticks(months, [name[:3] for name in MONTHS])
        for amount, _ in needs:
            plot.plot([-0.5, 11.5], [amount, amount], marker="╌", color=inks.against)
        plot.vline(month, inks.line)
        for light in ([one.low for one in year], [one.high for one in year]):
            plot.plot(months, light, marker="·", color=inks.line)
        plot.plot(months, [one.expected for one in year], marker=LINE, color=inks.strong)
        plot.text("now", month, scale[-1], color=inks.text)
        brightest = max(months, key=lambda n: year[int(n)].expected)  # there the words hide no curve
        for amount, words in needs:
            plot.text(f" {words} {amount:g} ", brightest, amount, color=inks.against, alignment="center")

    return draw
