"""What the journal knows of a plant's neighbours, as answers to questions that rules already use.

They enter a case as `Case.from_journal`; what the grower answers comes first, and reasons say "from the journal".
"""

from diagnose.case import AnswerValue, Case
from diagnose.collection.overview import Overview
from diagnose.collection.standout import Standout

NEIGHBOURS = "neighbours_affected"
TOGETHER = "collection_losses_rising_together"


def facts_for(row: Overview, rows: tuple[Overview, ...], found: Standout) -> dict[str, AnswerValue]:
    """Return what can be told for one plant: question -> answer; nothing is told of neighbours never counted.

    `neighbours_affected`: do others at the same place lose more leaves than usual for them, and of which kinds.
    `collection_losses_rising_together`: yes if this plant's losses rose and it shares a trait with others whose
    losses rose, beyond chance; no if the collection was tested and it does not.
    """
    told: dict[str, AnswerValue] = {}
    here = [
        r for r in rows if r.plant.place and r.plant.place == row.plant.place and r.plant.id != row.plant.id
    ]
    tested = [r for r in here if r.plant.id in found.tested]
    hit = [r for r in tested if r.plant.id in found.hit]
    if hit:
        own = row.plant.kind.lower()
        told[NEIGHBOURS] = (
            "same_kind" if own and all(r.plant.kind.lower() == own for r in hit) else "several_kinds"
        )
    elif tested and len(tested) == len(here):
        told[NEIGHBOURS] = "none"
    if row.plant.id in found.tested:
        told[TOGETHER] = any(row.plant.id in shared.plants for shared in found.shared)
    return told


def informed(case: Case, told: dict[str, AnswerValue], questions: frozenset[str]) -> Case:
    """Return the case with what the journal tells of questions that the rules in use ask."""
    known = {name: value for name, value in told.items() if name in questions}
    return case.model_copy(update={"from_journal": known})
