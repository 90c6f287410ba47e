"""A journal of invented plants with a known truth, to look at, to question and to learn from.

Run: python tests/simulator/demo_journal.py FILE [--plants 300] [--years 3] [--until DAY] [--seed 1]

Plants grow as in simulator.py. Three things were done to them: a cold spell took leaves at one place, a bad batch of
feed hurt the roots of those that got it, and a few plants had a shock of their own. Past cases tell parts of the demo
cases' answers, sometimes of the wrong story.
"""

import argparse
import datetime as dt
import itertools
import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from diagnose import locations
from diagnose.case import Case, Event, LeafCount, Place
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnostician, open_rules, plan_for
from diagnose.journal import Journal, cases, open_journal, plans, plants, rankings
from diagnose.journal.counts import keep_counts
from simulator import START, STEADY_AGEING, STEADY_CHANCE, STEADY_OWN_AGE, Life, counted, grow

PLACES = (
    "attic sill",
    "cellar lamps",
    "hall corner",
    "landing",
    "long shelf",
    "porch bench",
    "tile room",
    "west alcove",
)
CHILLED = "porch bench"
BAD_FEED = "batch K"
GOOD_FEEDS = ("batch G", "batch H", "batch J")
MEDIA = ("bark mix", "clay pebbles", "soil mix", "sphagnum")
_FIRST = (
    "Amber",
    "Bristle",
    "Copper",
    "Drowsy",
    "Elder",
    "Fern",
    "Grand",
    "Hollow",
    "Inky",
    "Jolly",
    "Knotty",
    "Little",
)
_SECOND = (
    "Anvil",
    "Beacon",
    "Candle",
    "Drum",
    "Ember",
    "Fiddle",
    "Goblet",
    "Harbour",
    "Island",
    "Kettle",
    "Lantern",
    "Mill",
)
CHILL_D, FEED_D = 45, 60
"""Days before the end at which the cold spell came and the bad batch was given."""
WRONG_STORY = 0.15
"""Share of past cases whose answers tell another cause's story."""


@dataclass(frozen=True)
class Truth:
    """What was done to the plants, by name."""

    until: dt.date
    chilled: frozenset[str]
    badly_fed: frozenset[str]
    shocked: frozenset[str]
    settled: int

    @property
    def hurt(self) -> frozenset[str]:
        """Every plant whose losses truly rose of late."""
        return self.chilled | self.badly_fed | self.shocked


def main() -> None:
    """Write the journal and print its truth."""
    parser = argparse.ArgumentParser(description="Write a journal of invented plants.")
    parser.add_argument("file", type=Path)
    parser.add_argument("--plants", type=int, default=300)
    parser.add_argument("--years", type=float, default=3)
    parser.add_argument("--until", type=dt.date.fromisoformat, default=dt.date.today())  # noqa: DTZ011
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    if asked.file.exists():
        sys.exit(f"{asked.file} exists; name a new file.")
    truth = make(asked.file, asked.plants, asked.years, asked.until, asked.seed, open_rules())
    for what in ("chilled", "badly_fed", "shocked"):
        names = sorted(getattr(truth, what))
        sys.stdout.write(f"{what.replace('_', ' ')}, {len(names)}: {', '.join(names)}\n")
    sys.stdout.write(f"settled cases: {truth.settled}\n")


def make(file: Path, count: int, years: float, until: dt.date, seed: int, rules: Diagnostician) -> Truth:
    """Write a journal and return what was done to its plants."""
    pick = random.Random(seed)
    days = round(years * 365) // 7 * 7
    names = itertools.islice(_names(), count)
    profiles = [plant for plant in rules.base.plants if plant != "generic"]
    chilled, fed_badly, shocked = set(), set(), set()
    with open_journal(file) as book, book.writing() as db:
        for place in PLACES:
            plants.locate_place(book, Place(label=place, latitude=52.0, longitude=0.5))
        for name in names:
            profile, place, feed = (
                pick.choice(profiles),
                pick.choice(PLACES),
                pick.choice((*GOOD_FEEDS, BAD_FEED)),
            )
            life = replace(
                pick.choice((STEADY_AGEING, STEADY_CHANCE, STEADY_OWN_AGE)),
                days=days,
                dli=pick.uniform(6, 14),
            )
            fate, life = _fate(life, place, feed, pick)
            {"chilled": chilled, "fed badly": fed_badly, "shocked": shocked}.get(fate, set()).add(name)
            plant = plants.add_plant(
                book, name, place=place, kind=rules.base.plants[profile].name, profile=profile,
                medium=pick.choice(MEDIA), pot_cm=float(pick.choice((9, 12, 15, 19))),
            )  # fmt: skip
            shift = until - START - dt.timedelta(days=days)
            keep_counts(db, plant.id, _shifted(counted(grow(life, pick)), shift))
            for event in _events(until, place, feed, fate, pick):
                plants.add_event(book, plant.id, event)
        settled = _past_cases(book, rules, until, pick)
    return Truth(until, frozenset(chilled), frozenset(fed_badly), frozenset(shocked), settled)


def _names() -> Iterator[str]:
    for number in itertools.count(1):
        for second, first in itertools.product(_SECOND, _FIRST):
            yield f"{first} {second}" + (f" {number}" if number > 1 else "")


def _fate(life: Life, place: str, feed: str, pick: random.Random) -> tuple[str, Life]:
    if place == CHILLED and pick.random() < 0.8:
        return "chilled", replace(life, shock_day=life.days - CHILL_D, shock_share=0.7)
    if feed == BAD_FEED and pick.random() < 0.7:
        return "fed badly", replace(life, roots_fail_day=life.days - FEED_D, roots_fall_chance_d=0.02)
    if pick.random() < 0.02:
        return "shocked", replace(life, shock_day=life.days - pick.randrange(20, 80), shock_share=0.7)
    return "none", life


def _shifted(case: Case, by: dt.timedelta) -> list[LeafCount]:
    return [row.model_copy(update={"date": row.date + by}) for row in case.leaf_history]


def _events(until: dt.date, place: str, feed: str, fate: str, pick: random.Random) -> list[Event]:
    def on(days: int) -> dt.date:
        return until - dt.timedelta(days=days)

    events = [Event(date=on(FEED_D), kind="fed", note=feed)]
    events += [Event(date=on(FEED_D + 90 * n), kind="fed", note=pick.choice(GOOD_FEEDS)) for n in (1, 2, 3)]
    if place == CHILLED:
        events.append(Event(date=on(CHILL_D), kind="other", note="cold night"))
    if fate == "shocked" or pick.random() < 0.1:
        events.append(Event(date=on(pick.randrange(5, 400)), kind="moved", note=f"to {place}"))
    return events


def _past_cases(book: Journal, rules: Diagnostician, until: dt.date, pick: random.Random) -> int:
    """Write cases of two plants in five: all settled but every tenth, which has a plan to look again by now."""
    stories = [read_case(path)[0] for path in sorted(locations.demo_cases().glob("*.toml"))]
    settled = 0
    for number, plant in enumerate(plants.all_plants(book)):
        if pick.random() > 0.4:
            continue
        story = pick.choice(stories)
        told = pick.choice(stories) if pick.random() < WRONG_STORY else story
        still_open = number % 10 == 0
        day = until - dt.timedelta(days=pick.randrange(15, 30) if still_open else pick.randrange(100, 700))
        record = cases.begin_case(book, plant.id, day)
        before = cases.read_case_record(book, record)
        answers = {name: value for name, value in told.answers.items() if pick.random() < 0.7}
        answers = {n: day - (told.date - v) if isinstance(v, dt.date) else v for n, v in answers.items()}
        cases.save_change(book, record, before, before.model_copy(update={"answers": answers}))
        diagnosis = rules.diagnose(cases.read_case_record(book, record))
        kept = rankings.add_ranking(book, record, diagnosis)
        plans.add_plan(book, kept, plan_for(diagnosis))
        if not still_open:
            cases.settle(
                book, record, day + dt.timedelta(days=30), story.expect[0], "seen when looked at closely"
            )
            settled += 1
    return settled


if __name__ == "__main__":
    main()
