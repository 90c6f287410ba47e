"""Calibration figures as plain text."""

from collections.abc import Collection

from diagnose.calibration import Calibration, top_share


def calibration_text(found: Calibration, ranks: Collection[int]) -> str:
    """Return how often a true cause came first, and how honest the stated probabilities were.

    `ranks`: the rank that the true cause (of several the foremost) got in each case.
    """
    parts = found.murphy
    tops = ", ".join(
        f"{top_share(ranks, places):.1%} {said}".replace("%", " %")
        for places, said in ((1, "first"), (2, "in the first two"), (3, "in the first three"))
    )
    lines = [
        f"{len(ranks)} case{'' if len(ranks) == 1 else 's'}, true cause {tops}.",
        f"{found.count} stated probabilities, one for every cause of every case:",
        (
            f"  Brier score {found.brier:.4f} = reliability {parts.reliability:.4f} - resolution {parts.resolution:.4f}"
            f" + uncertainty {parts.uncertainty:.4f} + within bins {parts.within:+.4f}"
        ),
        f"  expected calibration error {found.expected_error:.4f} (0 is honest)",
        "  stated        count  on average  came true",
    ]
    lines += [
        f"  {one.low:4.0%} to {one.high:4.0%} {one.count:6}  {one.stated:9.1%}  {one.came_true:9.1%}"
        for one in found.bins
    ]
    return "\n".join(lines)
