"""Feed: up to half the label's rate by small steps, in grams where the label is known."""

import math
from collections.abc import Iterator

from diagnose.language import _, marked
from diagnose.measures.feeding.ramp import SETTLING_WEEKS, ramp_up
from diagnose.measures.feeding.strength import HOUSE_N_PPM, dose_for_ppm_g_l
from diagnose.plan.ground import Ground, days
from diagnose.plan.records import Row, Schedule
from diagnose.rulebase.vocabulary import plain_number

_TARGET = 0.5
"""Half the label's rate, about 50-100 ppm nitrogen, is ample in a house (N-20; common practice)."""
_SHARES = {
    0.25: marked("a quarter of the label's rate"),
    0.375: marked("three eighths of the label's rate"),
    0.5: marked("half of the label's rate"),
}
_SETTLING = ("days_since_brought_home", "days_since_repotted")


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield the feeding steps, once the plan says to feed at all."""
    step = ground.first("feed_ramp", "feed_in_water")
    if step is None:
        return
    dose = ground.number("feed_dose_g_l") if ground.given.word("feed_strength") == "label" else None
    rows = []
    for week, share in ramp_up(_TARGET, _weeks_to_wait(ground, (step.date - ground.today).days)):
        grams = f", {plain_number(dose * share)} g/L" if dose else ""
        rows.append(Row(step.date + days(7 * (week - 1)), _(_SHARES[share]) + grams))
    note = _(
        "Stay there while it grows; stop when growth stops. Water first if the medium is dry. The label goes first."
    )
    percent = ground.number("feed_n_percent")
    if percent:
        least, most = (plain_number(dose_for_ppm_g_l(percent, ppm)) for ppm in HOUSE_N_PPM)
        dosed = _("With {percent} % nitrogen, {least} to {most} g/L give 50 to 100 ppm.")
        note += " " + dosed.format(percent=plain_number(percent), least=least, most=most)
    yield Schedule(
        "feeding", _("Feed by small steps"), tuple(rows), ("N-06", "N-20", "common practice"), note
    )


def _weeks_to_wait(ground: Ground, ahead_d: int) -> int:
    """Return the whole weeks still to wait after coming home or potting on, from a step so many days ahead."""
    since = [days_ago + ahead_d for name in _SETTLING if (days_ago := ground.number(name)) is not None]
    return max(0, SETTLING_WEEKS - math.floor(min(since) / 7)) if since else 0
