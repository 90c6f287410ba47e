"""Whether losses follow new leaves beyond chance, and after how many days.

Each loss has a phase: its days since the last opening, in units of the usual wait between two openings.
Losses that follow openings crowd at early phases. The statistic is the mean cosine of the phases about an
early one, as in the V-test of Greenwood & Durand 1955 (from memory). Its chance distribution is not taken
from a table but from the plant's own losses: the gaps between loss days are shuffled and the whole series is
turned round the history, so each arrangement keeps the rhythm of openings and losses and breaks only their
tie. The next opening plays no part, because a loss may itself delay it.
"""

import cmath
import math
import random
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise, permutations
from statistics import median

from diagnose.language import _, marked, numeral
from diagnose.measures.leaves.exact import ALPHA
from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.measure import Declaration, Measure

SOON = 0.2
"""The phase at which an old leaf usually goes: a week into a five-week wait (from memory, B-08)."""
_SHUFFLES, _TURNS_EACH = 125, 8
_ENUMERATE_UP_TO = 2000
_MOST_UNITS = 20_000  # of leaf-days; plants with more are measured more coarsely
_SEED = 1  # the sampled arrangements are the same on every run
_LOCKED = 0.3  # phases this little spread out (0 all over, 1 all alike) forbid saying "no"
_CELLS_A_WAIT = 3.0  # counts must come this often between two openings before "no" can be said
_FROM = ("leaf_history", "leaves")

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "loss_coupled_to_new",
        marked("whether leaves fall soon after new ones open, beyond chance"),
        "V-test on phases, Greenwood & Durand 1955 (from memory), by shuffled gaps and circular shifts",
        words=("yes", "no"),
        inputs=_FROM,
    ),
    Declaration(
        "loss_delay_d",
        marked("typical days from a new leaf to the loss that follows it, where they are coupled"),
        "median with its distribution-free interval (order statistics)",
        "d",
        least=0,
        most=365,
        inputs=_FROM,
    ),
)


@dataclass(frozen=True, slots=True)
class Coupling:
    """How strongly losses follow openings (-1 to 1), p, how alike the phases are, and the delays."""

    strength: float
    p: float
    locked: float
    cells_a_wait: float
    delays_d: tuple[float, ...]

    @property
    def verdict(self) -> str | None:
        """Return yes, no, or None where the history is too coarse or too regular to tell."""
        if self.p <= ALPHA:
            return "yes"
        tells = self.locked < _LOCKED and self.cells_a_wait >= _CELLS_A_WAIT
        return "no" if self.p > 0.3 and tells else None


def measure(history: History) -> Iterator[Measure]:
    """Yield whether losses are coupled to openings, and the delay if they are."""
    found = coupling(history.stretches)
    verdict = found.verdict if found else None
    if found is None or verdict is None:
        return
    remark = _("{count} times of loss compared with openings; p = {p}").format(
        count=len(found.delays_d), p=numeral(found.p, ".2g")
    )
    used = (history.source,)
    yield Measure("loss_coupled_to_new", verdict, used, remark=remark)
    if verdict == "yes" and found.delays_d:
        low, value, high = median_interval(found.delays_d)
        longest = max(s.days for s in history.stretches)
        remark = (
            _("known to about {days} days, the time between counts").format(days=longest)
            if longest > 1
            else ""
        )
        yield Measure(
            "loss_delay_d", value, used, max(0.0, low - longest / 2), high + longest / 2, remark=remark
        )


def coupling(stretches: tuple[Stretch, ...]) -> Coupling | None:
    """Test whether losses follow openings; None with fewer than two of either.

    Leaves lost between the same two counts are one loss: a sudden shedding must not count as many agreements.
    """
    known = [s for s in stretches if s.new is not None and s.lost is not None and s.leaf_days]
    opened = [i for i, s in enumerate(known) if s.new]
    fell = [i for i, s in enumerate(known) if s.lost]
    if len(opened) < 2 or len(fell) < 2:
        return None
    ends = list(accumulate(s.days for s in known))
    middles = [end - s.days / 2 for end, s in zip(ends, known, strict=True)]
    phases = _phases([middles[i] for i in opened], middles, ends[-1])
    scores = [math.cos(math.tau * (min(phase, SOON + 0.5) - SOON)) for phase in phases]
    strength = sum(scores[i] for i in fell)
    return Coupling(
        strength=strength / len(fell),
        p=_chance(strength, fell, [s.leaf_days for s in known], scores),
        locked=abs(sum(cmath.exp(1j * math.tau * phases[i]) for i in fell)) / len(fell),
        cells_a_wait=len(known) / len(opened),
        delays_d=_delays([middles[i] for i in opened], [middles[i] for i in fell]),
    )


def median_interval(values: tuple[float, ...]) -> tuple[float, float, float]:
    """Return (low, median, high); the 95 % limits are order statistics, or the extremes of few values."""
    ordered = sorted(values)
    n = len(ordered)
    middle = (ordered[(n - 1) // 2] + ordered[n // 2]) / 2
    below, skip = 0.0, 0
    while True:
        below += math.comb(n, skip) / 2**n
        if below > ALPHA / 2:
            break
        skip += 1
    edge = max(0, skip - 1)
    return ordered[edge], middle, ordered[n - 1 - edge]


def _phases(opened: list[float], middles: list[float], days: int) -> list[float]:
    """Return the phase of each stretch, the ends of the history joined to a circle."""
    usual_wait = median(after - before for before, after in pairwise((*opened, opened[0] + days)))
    places = [(bisect_right(opened, middle), middle) for middle in middles]
    return [
        (middle - (opened[place - 1] if place else opened[-1] - days)) / usual_wait
        for place, middle in places
    ]


def _chance(strength: float, fell: list[int], leaf_days: list[float], scores: list[float]) -> float:
    """Return the share of arrangements of the losses that follow openings at least as closely.

    They are arranged along leaf-days instead of days: when more leaves stand, more fall and more open, which
    is no tie between the two.
    """
    shrink = max(1.0, 2 * sum(leaf_days) / _MOST_UNITS)
    units = [max(1, round(2 * x / shrink)) for x in leaf_days]  # twice leaf-days are whole numbers
    ends = list(accumulate(units))
    span = ends[-1]
    score_at = [score for score, n in zip(scores, units, strict=True) for _unit in range(n)] * 2
    places = [ends[i] - units[i] // 2 - 1 for i in fell]
    gaps = [after - before for before, after in pairwise((*places, places[0] + span))]
    enough = strength - 1e-9

    def is_as_close(start: int, order: Sequence[int]) -> bool:
        return sum(map(score_at.__getitem__, accumulate(order[:-1], initial=start))) >= enough

    turns = 8 * len(scores)
    if math.factorial(len(gaps)) * turns <= _ENUMERATE_UP_TO:
        starts = [span * turn // turns for turn in range(turns)]
        every = [is_as_close(start, order) for order in permutations(gaps) for start in starts]
        return sum(every) / len(every)
    pick = random.Random(_SEED)  # noqa: S311  (no secret: arrangements for a test)
    hits = 0
    for _shuffle in range(_SHUFFLES):
        pick.shuffle(gaps)
        hits += sum(is_as_close(int(span * pick.random()), gaps) for _turn in range(_TURNS_EACH))
    return (hits + 1) / (_SHUFFLES * _TURNS_EACH + 1)


def _delays(opened: list[float], fell: list[float]) -> tuple[float, ...]:
    places = [(bisect_right(opened, day), day) for day in fell]
    return tuple(day - opened[place - 1] for place, day in places if place)
