"""Print how often the leaf measures find the truth on simulated plants, and how often they are wrong.

Run: python tests/simulator/report.py [plants per line, default 1000]
"""

import sys
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from diagnose.case import Case
from simulator import STEADY_AGEING, STEADY_CHANCE, STEADY_OWN_AGE, Grown, Life, counted, followed
from trials import CHANGED, STEADY, Found, has, holds, plants, shares

NAME = "loss_change_days_ago"


def main(count: int) -> None:
    """Print all lines; each share is of so many plants, so 5 % is known to 1.4 points with 1000."""
    say(f"{count} plants a line; weekly counts for a year unless said; all in %")
    steady(count)
    coupling(count // 2)
    changes(count)
    limits(count)


def steady(count: int) -> None:
    say("\nSteady plants, with an event that did nothing or none: false alarms, nominal 5")
    for name, life in STEADY.items():
        plain = found_on(life, count)
        beside = found_on(life, count, partial(counted, harmless_event_day=200))
        say(
            f"  {name:22} trend {shares_wrong(plain):5.1f}   change {has(plain, NAME):5.1f}   beside an event"
            f" {has(beside, NAME):5.1f}   oldest first: {words(plain, 'oldest_first')}"
        )


def shares_wrong(found: list[Found]) -> float:
    said = shares(found, "loss_trend")
    return said.get("rising", 0) + said.get("falling", 0)


def coupling(count: int) -> None:
    say("\nDo losses follow new leaves? (true of the first plant only)")
    for name, life in STEADY.items():
        for days in (182, 364, 728):
            for every in (7, 14):
                found = found_on(replace(life, days=days), count, partial(counted, every_d=every))
                say(f"  {name:22} {days} d, every {every:2} d   {words(found, 'loss_coupled_to_new')}")
        found = found_on(life, count, followed)
        say(f"  {name:22} 364 d, leaves dated   {words(found, 'loss_coupled_to_new')}")
    found = [f for f in found_on(STEADY_AGEING, count) if "loss_delay_d" in f]
    delays = sorted(float(f["loss_delay_d"].value) for f in found)
    inside = 100 * sum(holds(f["loss_delay_d"], 6) for f in found) / len(found)
    say(f"  delay (truth 6 d on average): median {delays[len(delays) // 2]:.1f} d, in limits {inside:.0f}")


def changes(count: int) -> None:
    say("\nA true change")
    for name, life in CHANGED.items():
        truth = life.days - (life.shock_day or life.roots_fail_day or 0)
        found = found_on(life, count)
        given = [f[NAME] for f in found if NAME in f]
        near = 100 * sum(abs(float(m.value) - truth) <= 21 for m in given) / max(1, len(given))
        inside = 100 * sum(holds(m, truth) for m in given) / max(1, len(given))
        say(
            f"  {name:34} found {has(found, NAME):5.1f} (of these within 21 d {near:5.1f}, in limits"
            f" {inside:5.1f})   laid to the event {shares(found, 'loss_change_after').get('moved', 0):5.1f}"
            f"   trend rising {shares(found, 'loss_trend').get('rising', 0):5.1f}"
        )


def limits(count: int) -> None:
    say("\nTruth within the limits, nominal 95")
    inside = 0
    for grown, measures in plants(STEADY_CHANCE, count):
        truth = 30 * STEADY_CHANCE.fall_chance_d * sum(grown.standing(day) for day in range(274, 364)) / 90
        inside += holds(measures["lost_leaves_per_30d"], truth)
    say(f"  losses by chance in the last 90 d: {100 * inside / count:.1f}")
    for name, watch in (("leaves dated", followed), ("weekly counts", counted)):
        found = found_on(replace(STEADY_OWN_AGE, days=546), count // 2, watch)
        given = [f["leaf_life_d"] for f in found if "leaf_life_d" in f]
        say(
            f"  leaf life, {name}: {100 * sum(holds(m, 120) for m in given) / len(given):.1f} of {len(given)}"
        )


def found_on(life: Life, count: int, watch: Callable[[Grown], Case] = counted) -> list[Found]:
    return [found for _, found in plants(life, count, watch)]


def words(found: list[Found], name: str) -> str:
    said = shares(found, name)
    return "   ".join(f"{word} {said.get(word, 0):5.1f}" for word in ("yes", "no", "-"))


def say(line: str) -> None:
    print(line, flush=True)  # noqa: T201  (a script that prints)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
