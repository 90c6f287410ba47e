"""The parts of a plan computed for this very case: light, water, feed, pots, air, young plants."""

from collections.abc import Callable, Iterator

from diagnose.plan.ground import Ground
from diagnose.plan.records import Schedule
from diagnose.plan.schedules import air, feeding, light, pots, watering, young

_PARTS: tuple[Callable[[Ground], Iterator[Schedule]], ...] = (
    light.schedules,
    watering.schedules,
    pots.schedules,
    feeding.schedules,
    air.schedules,
    young.schedules,
)


def schedules(ground: Ground) -> tuple[Schedule, ...]:
    """Return every schedule for which the case gives the numbers."""
    return tuple(schedule for part in _PARTS for schedule in part(ground))
