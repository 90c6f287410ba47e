"""Pots: how large the next one may be, how high the water may stand, how many leaves cut roots can carry."""

from collections.abc import Iterator

from diagnose.language import _, numeral
from diagnose.measures.measure import percentage
from diagnose.measures.roots.expected import told_pot
from diagnose.measures.roots.pot import (
    ROOT_TRIM_MOST_PERCENT,
    leaves_to_keep,
    next_pot_top_cm,
    room_gained_percent,
    usual_pot,
)
from diagnose.plan.ground import Ground
from diagnose.plan.records import Row, Schedule, Step
from diagnose.rulebase.vocabulary import plain_number

_RESERVOIR = (1 / 4, 1 / 3)
"""Share of the vessel's height for the water, at most: common practice, no source."""


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield sizes for the pot, the reservoir and the leaves."""
    if (step := ground.first("pot_up_one_size", "repot_airy", "fresh_mix")) is not None:
        yield from _next_pot(ground, step)
    if ground.first("dry_spell_reservoir", "refill_reservoir", "flush_reservoir") is not None:
        yield from _reservoir(ground)
    if (step := ground.first("trim_rotten_roots", "loosen_roots")) is not None:
        yield from _leaves(ground, step)


def _next_pot(ground: Ground, step: Step) -> Iterator[Schedule]:
    told = told_pot(ground.given)
    if told is None:
        return
    pot = told.pot
    holds = _("the pot it has: {cm} cm wide, about {litres} L").format(
        cm=plain_number(pot.top_cm), litres=plain_number(pot.volume_l)
    )
    rows = [Row(None, holds)]
    if step.id == "pot_up_one_size":
        for width in next_pot_top_cm(pot.top_cm):
            wider = usual_pot(width)
            gain = room_gained_percent(usual_pot(pot.top_cm), wider)
            rows.append(
                Row(
                    step.date,
                    _("{cm} cm wide: about {litres} L, {percent} % more room").format(
                        cm=plain_number(width),
                        litres=plain_number(wider.volume_l),
                        percent=numeral(gain, ".0f"),
                    ),
                )
            )
    else:
        fresh = _("fresh medium in {cm} cm or less, no wider").format(cm=plain_number(pot.top_cm))
        rows.append(Row(step.date, fresh))
    note = _("Volumes of round pots of usual shape.") if told.assumed or len(rows) > 2 else ""
    origin = ("W-17", _("geometry of a cut cone"))
    yield Schedule("next_pot", _("The next pot"), tuple(rows), origin, note, told.assumed)


def _reservoir(ground: Ground) -> Iterator[Schedule]:
    height, stands = ground.number("pot_height_cm"), ground.number("reservoir_height_cm")
    if height is None:
        return
    least, most = (plain_number(round(height * share, 1)) for share in _RESERVOIR)
    fill = _("fill to {least} cm, at most {most} cm, of the {height} cm")
    rows = [Row(None, fill.format(least=least, most=most, height=plain_number(height)))]
    if stands is not None:
        share = percentage(min(1.0, stands / height))
        now = _("now {cm} cm, {percent} of the height").format(cm=plain_number(stands), percent=share)
        rows.insert(0, Row(None, now))
    yield Schedule("reservoir", _("How high the water may stand"), tuple(rows), ("common practice",))


def _leaves(ground: Ground, step: Step) -> Iterator[Schedule]:
    leaves = ground.number("standing_leaves")
    if leaves is None or leaves < 3:
        return
    count = round(leaves)
    kept = {leaves_to_keep(count, cut): cut for cut in (10, 20, ROOT_TRIM_MOST_PERCENT)}
    rows = tuple(
        Row(
            step.date,
            _("if up to {percent} % of the roots go, keep {leaves} of {count} leaves, the youngest").format(
                percent=cut, leaves=leaves, count=count
            ),
        )
        for leaves, cut in kept.items()
        if leaves < count
    )
    if rows:
        yield Schedule("leaves_kept", _("How many leaves cut roots can carry"), rows, ("common practice",))
