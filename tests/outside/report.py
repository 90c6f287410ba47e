"""Print how the ranking does on published symptom tables, every miss with its reason, and how honest its figures are.

Run: python tests/outside/report.py
"""

import sys
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence

import misses
from composites import composites
from diagnose import locations
from diagnose.calibration import Pair, calibration, pairs_of
from diagnose.diagnosis import Diagnostician
from diagnose.ranking import Ranking
from diagnose.report.calibration_text import calibration_text
from diagnose.rulebase.load import load
from refit import Ranked, fitted, left_out, pairs
from symptom_rows import HELD_OUT, WORKED_BY, Row, rank_of, ranked


def main() -> None:
    """Print everything."""
    diagnostician = Diagnostician(load(locations.built_in_rules()))
    for name, folder, reasons in (
        ("ROWS THE RULES WERE MENDED BY", WORKED_BY, misses.WORKED_BY),
        ("ROWS HELD OUT: no rule was changed by them", HELD_OUT, misses.HELD_OUT),
    ):
        found = ranked(diagnostician, folder)
        say(f"{name}\n")
        rows_and_misses(found, reasons)
        refits(found)
        fuller(diagnostician, [row for row, _ in found])
        say("")
    worked, held = ranked(diagnostician, WORKED_BY), ranked(diagnostician, HELD_OUT)
    numbers = fitted(worked)
    say(
        f"Held-out rows with the numbers fitted on the other set ({numbers}): {figures(pairs(held, numbers))}"
    )


def rows_and_misses(found: Ranked, reasons: Mapping[str, str]) -> None:
    """Print the figures of a set and its misses."""
    say(calibration_text(calibration(pairs(found)), [rank_of(ranking, row) for row, ranking in found]))
    any_first = [ranking.first.id in row.causes for row, ranking in found]
    say(f"Some published cause of the row comes first: {share(any_first)}.")
    say(
        f"The best that any one ranking could do, as sheets disagree on equal answers: {share(best(found))} first.\n"
    )
    for row, ranking in found:
        if (place := rank_of(ranking, row)) > 1:
            said = f"{row.causes[0]} is {place}, first is {ranking.first.id}"
            say(f"  {row.id}: {said}\n      {reasons.get(row.id, 'no reason recorded yet')}")


def best(found: Ranked) -> list[bool]:
    """Return for each row whether the cause that most rows of its answers put first is its own first one."""
    same: dict[str, list[Row]] = defaultdict(list)
    for row, _ in found:
        same[f"{row.case.plant.profile} {sorted(row.case.answers.items())}"].append(row)
    right: list[bool] = []
    for alike in same.values():
        (_, most), *_ = Counter(row.causes[0] for row in alike).most_common()
        right += [True] * most + [False] * (len(alike) - most)
    return right


def refits(found: Ranked) -> None:
    """Print what two fitted numbers would change, each sheet tried with the fit on all others.

    Tables tell clean cases, one telling sign a row, so the fit asks for stronger evidence than we give; fuller cases,
    below, are stated about honestly as shipped and would be overstated by that fit.
    """
    say("\nLevel of priors and stretch of evidence: as shipped, and fitted on all sheets but the one tried")
    say(f"  shipped   {figures(pairs(found))}")
    say(f"  fitted    {figures(left_out(found))}   (on all sheets: {fitted(found)})")


def fuller(diagnostician: Diagnostician, rows: Sequence[Row]) -> None:
    """Print the figures of cases put together from several rows."""
    made = [(cause, diagnostician.diagnose(case).ranking) for cause, case in composites(rows)]
    say(
        "\nFuller cases of one true cause, put together from 2 to 4 rows, every second one with a misleading row"
    )
    told: list[Pair] = [pair for cause, ranking in made for pair in pairs_of(ranking, [cause])]
    say(calibration_text(calibration(told), [ranking.of(cause).rank for cause, ranking in made]))
    say(f"First cause above 20 dB: {share([above(ranking) for _, ranking in made])}.")


def above(ranking: Ranking) -> bool:
    """Whether the first cause's odds are stated above 100 to 1."""
    return ranking.first.score_db > 20


def figures(told: Sequence[Pair]) -> str:
    """Return the figures of a set of pairs in one line."""
    found = calibration(told)
    return f"Brier {found.brier:.4f}, expected calibration error {found.expected_error:.4f}"


def share(hits: Sequence[bool]) -> str:
    """Return how many of how many."""
    return f"{sum(hits)} of {len(hits)} ({100 * sum(hits) / len(hits):.1f} %)"


def say(text: str) -> None:
    """Print a line."""
    sys.stdout.write(text + "\n")


if __name__ == "__main__":
    main()
