"""Calibration figures as plain text."""

from collections.abc import Collection

from diagnose.calibration import Bin, Calibration, top_share
from diagnose.language import _, ngettext, numeral


def calibration_text(found: Calibration, ranks: Collection[int]) -> str:
    """Return how often a true cause came first, and how honest the stated probabilities were.

    `ranks`: the rank that the true cause (of several the foremost) got in each case.
    """
    parts = found.murphy
    one, two, three = (_share(top_share(ranks, places)) for places in (1, 2, 3))
    cases = ngettext(
        "{count} case, true cause {one} first, {two} in the first two, {three} in the first three.",
        "{count} cases, true cause {one} first, {two} in the first two, {three} in the first three.",
        len(ranks),
    )
    stated = _("{count} stated probabilities, one for every cause of every case:")
    score = _(
        "Brier score {score} = reliability {reliability} - resolution {resolution} + uncertainty {uncertainty} + "
        "within bins {within}"
    )
    error = _("expected calibration error {error} (0 is honest)")
    figures = score.format(
        score=numeral(found.brier, ".4f"),
        reliability=numeral(parts.reliability, ".4f"),
        resolution=numeral(parts.resolution, ".4f"),
        uncertainty=numeral(parts.uncertainty, ".4f"),
        within=numeral(parts.within, "+.4f"),
    )
    return "\n".join(
        [
            cases.format(count=len(ranks), one=one, two=two, three=three),
            stated.format(count=found.count),
            f"  {figures}",
            f"  {error.format(error=numeral(found.expected_error, '.4f'))}",
            _("  stated        count  on average  came true"),
            *map(_bin, found.bins),
        ]
    )


def _bin(one: Bin) -> str:
    band = _("{low} to {high}").format(low=f"{one.low:4.0%}", high=f"{one.high:4.0%}")
    return f"  {band} {one.count:6}  {numeral(one.stated, '9.1%')}  {numeral(one.came_true, '9.1%')}"


def _share(share: float) -> str:
    return numeral(share, ".1%").replace("%", " %")
