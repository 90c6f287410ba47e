"""Print what the light measures cost, and how well one city's sunshine is told from others.

Run: python tests/bench/light.py
"""

import datetime as dt
import math
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))


def milliseconds(work: Callable[[], object]) -> float:
    """Return how long the work took, once."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def print_costs() -> None:
    """Print cold and warm times of one place and window."""
    from diagnose.case import Case, Place
    from diagnose.measures import light
    from diagnose.measures.measure import Given
    from diagnose.measures.places import find_city

    case = Case(date=dt.date(2026, 12, 3), place=Place(latitude=54.0, longitude=10.0))
    given = Given(case, {"window_direction": "south", "distance_to_window_cm": 100.0})

    def measure() -> object:
        return list(light.measure(given))

    print(f"import pvlib               {milliseconds(lambda: __import__('pvlib')):9.1f} ms")
    print(f"first measure, any place   {milliseconds(measure):9.1f} ms")
    from diagnose.measures.light.indoor import window_year
    from diagnose.measures.light.opening import Opening

    south = Opening(180.0, 1.0)
    years = [milliseconds(partial(window_year, at + 0.5, 10.0, 0.0, south)) for at in range(20, 40)]
    print(f"year at a new place        {statistics.median(years):9.1f} ms (median of {len(years)})")
    windows = [Opening(180.0, cm / 100) for cm in range(101, 121)]
    moved = [milliseconds(partial(window_year, 20.5, 10.0, 0.0, window)) for window in windows]
    print(f"year, same place, moved    {statistics.median(moved):9.1f} ms (median of {len(moved)})")
    again = [milliseconds(measure) for _ in range(200)]
    print(f"measure again              {statistics.median(again):9.3f} ms (median of {len(again)})")
    print(f"first city                 {milliseconds(lambda: find_city('Hamburg')):9.1f} ms")
    print(f"another city               {milliseconds(lambda: find_city('Sapporo')):9.1f} ms")


def print_sunshine_errors() -> None:
    """Print the error of the sunshine share when each city of the table is told from the others."""
    from diagnose.measures.light import climate
    from diagnose.measures.light.sunshine import SUNSHINE_H

    errors: dict[str, list[float]] = {"up to 300 km": [], "up to 700 km": [], "farther": []}
    for left_out, (_, latitude, longitude, _) in enumerate(SUNSHINE_H):
        shares, away_km = climate.interpolated_shares(latitude, longitude, left_out)
        kind = "up to 300 km" if away_km <= 300 else "up to 700 km" if away_km <= 700 else "farther"
        truth = climate.city_shares()[left_out]
        errors[kind] += [told - true for told, true in zip(shares, truth, strict=True)]
    print("sunshine share of the day, nearest other city:")
    for kind, found in errors.items():
        error = math.sqrt(statistics.fmean(value**2 for value in found))
        print(f"  {kind:14} root mean square error {error:.3f}, {len(found) // 12} cities")


if __name__ == "__main__":
    print_costs()
    print_sunshine_errors()
