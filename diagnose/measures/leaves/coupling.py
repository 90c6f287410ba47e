"""Whether losses follow new leaves beyond chance, and after how many days.

Between one opening and the next, a loss has a phase: 0 as the leaf opens, 1 as the next one does. Losses
that follow openings crowd at early phases. The statistic is the mean cosine of the phases about an early
one: the V-test of Greenwood & Durand 1955 (from memory). Its chance distribution is not taken from a table
but from the plant's own losses: the gaps between loss days are shuffled and the whole series is turned round
the calendar, so each arrangement keeps the rhythm of openings and losses and breaks only their tie.
"""

import cmath
import math
import random
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, permutations

from diagnose.measures.leaves.exact import ALPHA
from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.measure import Declaration, Measure

SOON = 0.2
"""The phase at which an old leaf usually goes: a week into a five-week wait (from memory, B-08)."""
_ARRANGEMENTS = 999
_ENUMERATE_UP_TO = 2000
_SEED = 1  # the sampled arrangements are the same on every run
_LOCKED = 0.3  # phases this little spread out (0 all over, 1 all alike) forbid saying "no"
_CELLS_A_WAIT = 3.0  # counts must come this often between two openings before "no" can be said
_FROM = ("leaf_history", "leaves")

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "loss_coupled_to_new",
        "whether leaves fall soon after new ones open, beyond chance",
        "V-test on phases, Greenwood & Durand 1955 (from memory), by shuffled gaps and circular shifts",
        words=("yes", "no"),
        inputs=_FROM,
    ),
    Declaration(
        "loss_delay_d",
        "typical days from a new leaf to the loss that follows it, where they are coupled",
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
    remark = f"{len(found.delays_d)} times of loss compared with openings; p = {found.p:.2g}"
    used = (history.source,)
    yield Measure("loss_coupled_to_new", verdict, used, remark=remark)
    if verdict == "yes" and found.delays_d:
        low, value, high = median_interval(found.delays_d)
        longest = max(s.days for s in history.stretches)
        remark = f"known to about {longest} days, the time between counts" if longest > 1 else ""
        yield Measure(
            "loss_delay_d", value, used, max(0.0, low - longest / 2), high + longest / 2, remark=remark
        )


def coupling(stretches: tuple[Stretch, ...]) -> Coupling | None:
    """Test whether losses follow openings; None with fewer than two of either.

    Leaves lost between the same two counts are one loss: a sudden shedding must not count as many agreements.
    """
    known = [s for s in stretches if s.new is not None and s.lost is not None]
    starts = [0, *accumulate(s.days for s in known)]
    opened = [i for i, s in enumerate(known) if s.new]
    fell = [i for i, s in enumerate(known) if s.lost]
    if len(opened) < 2 or len(fell) < 2:
        return None
    middles = [starts[i] + s.days / 2 for i, s in enumerate(known)]
    phases = _phases([middles[i] for i in opened], middles, starts[-1])
    scores = [math.cos(math.tau * (phase - SOON)) for phase in phases]
    strength = sum(scores[i] for i in fell)
    cell_of_day = [i for i, s in enumerate(known) for _ in range(s.days)]
    locked = abs(sum(cmath.exp(1j * math.tau * phases[i]) for i in fell)) / len(fell)
    return Coupling(
        strength=strength / len(fell),
        p=_chance(strength, [starts[i] + known[i].days // 2 for i in fell], [scores[i] for i in cell_of_day]),
        locked=locked,
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
    """Return the phase of each stretch between two openings, the ends of the history joined to a circle."""
    phases = []
    for middle in middles:
        next_one = bisect_right(opened, middle)
        before = opened[next_one - 1] if next_one else opened[-1] - days
        after = opened[next_one] if next_one < len(opened) else opened[0] + days
        phases.append((middle - before) / (after - before))
    return phases


def _chance(strength: float, fell: list[int], score_of_day: list[float]) -> float:
    """Return the share of arrangements of the losses that follow openings at least as closely."""
    days = len(score_of_day)
    gaps = [(after - before) % days for before, after in zip(fell, [*fell[1:], fell[0]], strict=True)]
    enough = strength - 1e-9
    if math.factorial(len(gaps)) * days <= _ENUMERATE_UP_TO:
        every = [
            _score(start, order, score_of_day) >= enough
            for order in permutations(gaps)
            for start in range(days)
        ]
        return sum(every) / len(every)
    pick = random.Random(_SEED)  # noqa: S311  (no secret: arrangements for a test)
    hits = 0
    for _ in range(_ARRANGEMENTS):
        pick.shuffle(gaps)
        hits += _score(int(pick.random() * days), gaps, score_of_day) >= enough
    return (hits + 1) / (_ARRANGEMENTS + 1)


def _score(start: int, gaps: list[int] | tuple[int, ...], score_of_day: list[float]) -> float:
    days = len(score_of_day)
    total, day = 0.0, start
    for gap in gaps:
        total += score_of_day[day]
        day = (day + gap) % days
    return total


def _delays(opened: list[float], fell: list[float]) -> tuple[float, ...]:
    places = [(bisect_right(opened, day), day) for day in fell]
    return tuple(day - opened[place - 1] for place, day in places if place)
