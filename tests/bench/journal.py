"""Print how long the journal takes: counts saved, the collection summed up and tested, its growth with its size.

Run: python tests/bench/journal.py [plants, default 1000] [--largest 10000]
"""

import argparse
import datetime as dt
import math
import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from diagnose.case import LeafCount
from diagnose.casefile import read_case
from diagnose.collection.overview import overview
from diagnose.collection.standout import standout
from diagnose.diagnosis import open_rules
from diagnose.journal import cases, counts, open_journal, plants
from diagnose.journal.open import damage
from diagnose.locations import demo_cases

WEEKS = 260
LAST = dt.date(2026, 5, 31)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("plants", nargs="?", type=int, default=1000)
    parser.add_argument("--largest", type=int, default=10_000)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        sizes = [n for n in (100, 1000, 10_000) if n <= asked.largest]
        took = {}
        for size in sorted({*sizes, asked.plants}):
            path = Path(folder) / f"{size}.sqlite"
            fill(path, size)
            took[size] = summed_up(path, size)
            if size == asked.plants:
                saved(path)
                ranked(path)
        if len(sizes) > 1:
            growth(sizes, [took[size] for size in sizes])


def fill(path, size):
    """Five years of weekly counts of each plant, by chance."""
    pick = random.Random(size)
    begun = time.perf_counter()
    with open_journal(path) as book, book.writing() as db:
        for number in range(size):
            plant = plants.add_plant(
                book, f"Plant {number}", place=f"place {number % 20}", kind=f"kind {number % 30}"
            )
            present, rows = 8, []
            for week in range(WEEKS):
                new, lost = pick.random() < 0.3, present > 1 and pick.random() < 0.04 * present
                present += new - lost
                rows.append(
                    LeafCount(
                        date=LAST - dt.timedelta(weeks=WEEKS - week),
                        present=present,
                        new=int(new),
                        lost=int(lost),
                    )
                )
            counts.keep_counts(db, plant.id, rows)
    say(
        f"\n{size:,} plants, {size * WEEKS:,} counts: taken in within {time.perf_counter() - begun:.1f} s, {path.stat().st_size / 1e6:.0f} MB"
    )


def summed_up(path, size):
    def summary():
        with open_journal(path) as book:
            return overview(plants.all_plants(book), counts.leaf_totals(book), LAST)

    def stands_out():
        with open_journal(path) as book:
            rows = overview(plants.all_plants(book), counts.leaf_totals(book), LAST)
            return standout(rows, plants.events(book), LAST)

    best = timed("collection summary, journal opened anew", summary)
    timed("what stands out, journal opened anew", stands_out)
    with open_journal(path) as book:
        timed("check of the file for damage", lambda: damage(book.db), times=2)
    return best


def saved(path):
    took, worked = [], time.process_time()
    with open_journal(path) as book:
        for number in range(200):
            begun = time.perf_counter()
            counts.add_count(
                book,
                1 + number % 100,
                LeafCount(date=LAST + dt.timedelta(days=number // 100), present=5, new=0, lost=0),
            )
            took.append(1000 * (time.perf_counter() - begun))
    took.sort()
    busy = 1000 * (time.process_time() - worked) / len(took)
    median, most = statistics.median(took), took[189]
    say(
        f"  one count saved: median {median:.1f} ms, 95 % within {most:.1f} ms, longest {took[-1]:.1f} ms, processor {busy:.1f} ms"
    )


def ranked(path):
    """Every plant with an open case ranked anew, one in twenty plants."""
    rules = open_rules()
    stories = [read_case(file)[0] for file in sorted(demo_cases().glob("*.toml"))]
    with open_journal(path) as book:
        with book.writing():
            for number, plant in enumerate(plants.all_plants(book)[::20]):
                record = cases.begin_case(book, plant.id, LAST)
                before = cases.read_case_record(book, record)
                cases.save_change(
                    book,
                    record,
                    before,
                    before.model_copy(update={"answers": stories[number % len(stories)].answers}),
                )
        begun, worked = time.perf_counter(), time.process_time()
        done = [
            rules.diagnose(cases.read_case_record(book, record, LAST))
            for record in cases.all_cases(book, settled=False)
        ]
        spent, busy = time.perf_counter() - begun, time.process_time() - worked
    each = 1000 * busy / len(done)
    say(
        f"  {len(done)} open cases of five years' counts each ranked anew: {spent:.1f} s, processor {each:.0f} ms a case"
    )


def timed(what, work, times=5):
    took, busy = [], []
    for _ in range(times):
        begun, worked = time.perf_counter(), time.process_time()
        work()
        took.append(time.perf_counter() - begun)
        busy.append(time.process_time() - worked)
    best, median, processor = (1000 * t for t in (min(took), statistics.median(took), min(busy)))
    say(f"  {what}: best {best:.0f} ms, median {median:.0f} ms, processor {processor:.0f} ms")
    return min(busy)


def growth(sizes, took):
    """The exponent of processor time against size, by least squares of their logarithms."""
    x, y = [math.log(n) for n in sizes], [math.log(t) for t in took]
    slope = statistics.linear_regression(x, y).slope
    steps = [f"{(y[n + 1] - y[n]) / (x[n + 1] - x[n]):.2f}" for n in range(len(x) - 1)]
    say(
        f"\ncollection summary grows as plants to the power of {slope:.2f} over {', '.join(f'{n:,}' for n in sizes)}"
    )
    say(
        f"from size to size: {', '.join(steps)} (the smallest file is also checked for damage when it is opened)"
    )


def say(text):
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
