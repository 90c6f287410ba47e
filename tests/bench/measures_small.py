"""Time the measures of air, roots and feeding on random answers: `python tests/bench/measures_small.py`."""

import datetime as dt
import random
import statistics
import subprocess
import sys
import time

from diagnose.case import Case
from diagnose.measures import air, feeding, roots
from diagnose.measures.measure import Given, Measure, Value
from diagnose.measures.needs import HumidityNeed, LeafNumber, PlantNeeds, WarmthNeed

CASES = 2000
NEEDS = PlantNeeds(
    warmth=WarmthNeed(origin="invented", chill_c=12, night_least_c=17, day_least_c=20, day_most_c=32),
    humidity=HumidityNeed(origin="invented", least_percent=50, good_percent=65),
    leaf_number=LeafNumber(origin="invented", standing_low=3, standing_high=6),
)
NUMBERS = {
    "day_temp_c": (12, 32),
    "night_low_c": (2, 24),
    "outdoor_low_c": (-20, 20),
    "humidity_percent": (15, 90),
    "pot_top_cm": (6, 40),
    "pot_base_cm": (5, 30),
    "pot_height_cm": (5, 35),
    "reservoir_height_cm": (0, 10),
    "watering_every_d": (1, 30),
    "days_since_watered": (0, 30),
    "leaves_standing": (0, 30),
    "leaves_before": (0, 30),
    "feed_n_percent": (0, 30),
    "feed_dose_g_l": (0, 5),
    "feed_every_d": (1, 90),
    "medium_age_months": (0, 60),
    "medium_ec_ms_cm": (0, 8),
}
CHOICES = {
    "glazing": ["single", "double", "triple", "coated", "tinted"],
    "medium": ["soil_mix", "chunky_mix", "mineral_passive", "water", "moss"],
    "drainage": ["free", "cover_pot", "none"],
    "flushing": ["never", "now_and_then", "monthly"],
    "medium_now": ["bone_dry", "top_dry", "moist", "soggy"],
    "dryness_before_watering": ["dry_through", "top_dry", "surface_dry", "still_wet"],
    "medium_ec_method": ["pour_through", "saturated_paste", "one_to_two"],
}


def answers(rng: random.Random) -> dict[str, Value]:
    """Return about three quarters of the questions above, answered at random."""
    told: dict[str, Value] = {
        name: rng.uniform(*ends) for name, ends in NUMBERS.items() if rng.random() < 0.75
    }
    return told | {name: rng.choice(words) for name, words in CHOICES.items() if rng.random() < 0.75}


def main() -> None:
    """Print the time a case takes in each module, and the time to import all three."""
    rng = random.Random(1)
    case = Case(date=dt.date(2026, 1, 15))
    times: dict[str, list[float]] = {"air": [], "roots": [], "feeding": []}
    yielded = []
    for _ in range(CASES):
        told = answers(rng)
        results: dict[str, Measure] = {}
        for module in (air, roots, feeding):
            start = time.perf_counter()
            results |= {m.name: m for m in module.measure(Given(case, told, NEEDS, dict(results)))}
            times[module.__name__.rsplit(".", 1)[1]].append(time.perf_counter() - start)
        yielded.append(len(results))
    for name, each in times.items():
        cuts = statistics.quantiles(each, n=100)
        print(
            f"{name:8} median {statistics.median(each) * 1e6:6.0f} µs, 99 % {cuts[98] * 1e6:6.0f} µs a case"
        )
    print(f"measures yielded a case: median {statistics.median(yielded):.0f}, most {max(yielded)}")
    code = "import diagnose.measures.measure; import time; s = time.perf_counter();"
    code += "import diagnose.measures.air, diagnose.measures.roots, diagnose.measures.feeding;"
    code += "print(time.perf_counter() - s)"
    runs = [
        float(subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout)
        for _ in range(5)
    ]
    print(f"import of the three beyond the contract: best of 5 {min(runs) * 1e3:.1f} ms")


if __name__ == "__main__":
    main()
