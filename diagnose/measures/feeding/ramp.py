"""How to bring a plant to feed that is new to it."""

_FIRST_SHARE, _STEP_SHARE, _STEP_WEEKS = 0.25, 0.125, 2

SETTLING_WEEKS = 4
"""Weeks without feed after coming home or potting on: a month (Texas A&M, "Fertilizing foliage & flowering
plants")."""


def ramp_up(target_share: float, wait_weeks: int = 0) -> tuple[tuple[int, float], ...]:
    """Return (week, share of label strength) for each step up to `target_share`, after `wait_weeks`.

    Starts at a quarter of label strength, or the target if that is less, and adds an eighth every two weeks.
    Common practice, no source; a label that says less is to be followed.
    """
    steps = [(wait_weeks + 1, min(_FIRST_SHARE, target_share))]
    while steps[-1][1] < target_share:
        week, share = steps[-1]
        steps.append((week + _STEP_WEEKS, min(share + _STEP_SHARE, target_share)))
    return tuple(steps)
