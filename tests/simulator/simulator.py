"""A small plant with known truth: what opened when, what fell when and why.

Each day the standing leaves earn carbon from light and pay for their upkeep; what is left goes into a
reserve, and when it holds the price of a leaf, one opens. Leaves fall by age, by chance, as a new one opens,
in a shock, from failing roots, or because the plant cannot feed them. All numbers are invented: only the
shape matters, and that the truth is known.
"""

import datetime as dt
import math
import random
from dataclasses import dataclass

from diagnose.case import Case, Event, Leaf, LeafCount, LeafPosition

START = dt.date(2021, 1, 1)
_GAIN = 2.8  # carbon a leaf earns a day in endless light
_HALF_DLI = 6.0  # light at which it earns half of that, mol/m²/d
_UPKEEP = 0.4  # carbon a leaf costs a day
_PRICE = 90.0  # carbon to make a leaf
_PRICE_SPREAD = 0.25  # of one leaf's price about the mean
_SHADE = 0.15  # how much each leaf shades the others
_SHOCK_LASTS_D = 21


@dataclass(frozen=True)
class Life:
    """What happens to the plant; None or 0 is never."""

    days: int = 364
    dli: float = 6.0
    winter_dip: float = 0.0
    leaves: int = 5
    sheds_after_d: tuple[float, float] | None = None
    leaf_life_d: tuple[float, float] | None = None
    fall_chance_d: float = 0.0
    shock_day: int | None = None
    shock_share: float = 0.6
    roots_fail_day: int | None = None
    roots_fall_chance_d: float = 0.03


STEADY_AGEING = Life(sheds_after_d=(6, 3))
"""An old leaf goes about six days after each new one."""
STEADY_CHANCE = Life(fall_chance_d=1 / 120)
"""Any leaf may fall on any day: nothing to be found."""
STEADY_OWN_AGE = Life(leaf_life_d=(120, 35))
"""Leaves die of their own age, whatever opens meanwhile."""


@dataclass
class _Growing:
    opened: int
    falls: float
    lost: int | None = None


@dataclass(frozen=True)
class Grown:
    """The truth: (day opened, day lost or None) of every leaf; days below 0 lie before the first count."""

    life: Life
    leaves: tuple[tuple[int, int | None], ...]

    def standing(self, day: int) -> int:
        """Return the leaves standing at the end of a day."""
        return sum(opened <= day and (lost is None or lost > day) for opened, lost in self.leaves)


def grow(life: Life, pick: random.Random) -> Grown:
    """Grow one plant day by day; it is settled by half a year of steady life before day 0."""
    leaves = [_Growing(day, _fall_day(life, day, pick)) for day in range(-180, -180 - 24 * life.leaves, -24)]
    reserve, price = 0.0, _price(pick)
    for day in range(-179, life.days + 1):
        standing = sorted((leaf for leaf in leaves if leaf.lost is None), key=lambda leaf: leaf.opened)
        reserve += _income(life, day, len(standing))
        if reserve < -_PRICE and standing:
            standing[0].lost, reserve = day, 0.0
        elif reserve >= price:
            reserve, price = reserve - price, _price(pick)
            leaves.append(_Growing(day, _fall_day(life, day, pick)))
            waiting = [leaf for leaf in standing if leaf.falls == math.inf]
            if life.sheds_after_d and len(standing) >= life.leaves and waiting:
                waiting[0].falls = day + max(0.0, pick.gauss(*life.sheds_after_d))
        chance = _chance(life, day)
        for leaf in standing:
            if leaf.lost is None and (leaf.falls <= day or pick.random() < chance):
                leaf.lost = day
    return Grown(life, tuple((leaf.opened, leaf.lost) for leaf in leaves))


def counted(grown: Grown, every_d: int = 7, harmless_event_day: int | None = None) -> Case:
    """Return the case of a grower who counts every so many days and notes which leaf went, and moves."""
    rows = [LeafCount(date=_date(0), present=grown.standing(0))]
    for day in range(every_d, grown.life.days + 1, every_d):
        within = range(day - every_d + 1, day + 1)
        new = sum(opened in within for opened, _ in grown.leaves)
        gone = sorted(opened for opened, lost in grown.leaves if lost is not None and lost in within)
        rows.append(
            LeafCount(
                date=_date(day),
                present=grown.standing(day),
                new=new,
                lost=len(gone),
                lost_which=_which(grown, gone, day - every_d),
            )
        )
    days = (grown.life.shock_day, grown.life.roots_fail_day, harmless_event_day)
    events = tuple(Event(date=_date(day), kind="moved") for day in days if day is not None)
    return Case(date=_date(grown.life.days), leaf_history=tuple(rows), events=events)


def followed(grown: Grown) -> Case:
    """Return the case of a grower who dates every leaf from day 0 on."""
    leaves = tuple(
        Leaf(opened=_date(opened), lost=None if lost is None else _date(lost))
        for opened, lost in grown.leaves
        if opened >= 0
    )
    return Case(date=_date(grown.life.days), leaves=leaves)


def _income(life: Life, day: int, count: int) -> float:
    """Return the day's carbon; leaves shade each other as in Beer's law, roots that fail halve it."""
    if count == 0:
        return 0.5
    season = 1 - life.winter_dip * (1 + math.cos(math.tau * day / 365)) / 2
    light = life.dli * season * (1 - math.exp(-_SHADE * count)) / (_SHADE * count)
    earned = _GAIN * light / (light + _HALF_DLI)
    if life.roots_fail_day is not None and day >= life.roots_fail_day:
        earned /= 2
    return count * (earned - _UPKEEP)


def _chance(life: Life, day: int) -> float:
    chance = life.fall_chance_d
    if life.shock_day is not None and 0 <= day - life.shock_day < _SHOCK_LASTS_D:
        chance += 1 - (1 - life.shock_share) ** (1 / _SHOCK_LASTS_D)
    if life.roots_fail_day is not None and day >= life.roots_fail_day:
        chance += life.roots_fall_chance_d
    return chance


def _fall_day(life: Life, opened: int, pick: random.Random) -> float:
    return math.inf if life.leaf_life_d is None else opened + max(1.0, pick.gauss(*life.leaf_life_d))


def _price(pick: random.Random) -> float:
    return pick.gammavariate(1 / _PRICE_SPREAD**2, _PRICE * _PRICE_SPREAD**2)


def _which(grown: Grown, gone: list[int], before: int) -> LeafPosition | None:
    if not gone:
        return None
    stood = sorted(
        opened for opened, lost in grown.leaves if opened <= before and (lost is None or lost > before)
    )
    if gone == stood[: len(gone)]:
        return "oldest"
    return "newest" if stood and gone == stood[-len(gone) :] else "middle"


def _date(day: int) -> dt.date:
    return START + dt.timedelta(days=day)
