"""Numbers from the leaf history: rates, trend, coupling, order of loss, change, leaf life, leaves standing.

Each file computes one of them and declares the names it gives; `consistency` first sets aside what does not
add up.
"""

from collections.abc import Iterator
from dataclasses import replace

from diagnose.measures.leaves import coupling, lifespan, order, rates, since_when, standing
from diagnose.measures.leaves.consistency import cleaned_leaves, followed
from diagnose.measures.measure import Declaration, Given, Measure

DECLARED: tuple[Declaration, ...] = (
    *rates.DECLARED,
    *coupling.DECLARED,
    *order.DECLARED,
    *since_when.DECLARED,
    *lifespan.DECLARED,
    *standing.DECLARED,
)


def measure(given: Given) -> Iterator[Measure]:
    """Yield every leaf measure that the case allows; what the data are too thin for is not yielded."""
    history, leaves = followed(given.case), cleaned_leaves(given.case)
    found = [
        *rates.measure(given, history),
        *coupling.measure(history),
        *order.measure(history, leaves),
        *since_when.measure(given, history),
    ]
    so_far = replace(given, before={m.name: m for m in found})
    found += lifespan.measure(so_far, history, leaves)
    so_far = replace(given, before={m.name: m for m in found})
    found += standing.measure(so_far, history, leaves)
    yield from found
