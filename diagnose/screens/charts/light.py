"""Light through the year against what the plant lives on and what it grows well from."""

from textual_plotext.plot import Plot

from diagnose.language import _, month_short, numeral
from diagnose.measures.light import Year
from diagnose.measures.needs import LightNeed
from diagnose.report.pictures.svg import ticks
from diagnose.screens.charts.chart import LINE, Drawing, Inks


def light_chart(year: Year, month: int, need: LightNeed | None) -> Drawing:
    """Return the drawing; `month` is the case's own, 0 for January."""
    needs = (
        (
            (need.least_dli_mol_m2_d, _("lives on {amount}")),
            (need.good_dli_mol_m2_d, _("grows well from {amount}")),
        )
        if need
        else ()
    )

    def draw(plot: Plot, inks: Inks) -> None:
        months = [float(n) for n in range(12)]
        scale = ticks(
            max(*(light.high for light in year), *(1.2 * amount for amount, _words in needs), 0.1), 4
        )
        plot.ylim(0, scale[-1])
        plot.xlim(-0.5, 11.5)
        plot.yticks(scale, [numeral(mark, "g") for mark in scale])
        plot.xticks(months, [month_short(number) for number in range(1, 13)])
        for amount, _words in needs:
            plot.plot([-0.5, 11.5], [amount, amount], marker="╌", color=inks.against)
        plot.vline(month, inks.line)
        for light in ([one.low for one in year], [one.high for one in year]):
            plot.plot(months, light, marker="·", color=inks.line)
        plot.plot(months, [one.expected for one in year], marker=LINE, color=inks.strong)
        plot.text(_("now"), month, scale[-1], color=inks.text)
        brightest = max(months, key=lambda n: year[int(n)].expected)  # there the words hide no curve
        for amount, words in needs:
            said = words.format(amount=numeral(amount, "g"))
            plot.text(f" {said} ", brightest, amount, color=inks.against, alignment="center")

    return draw
