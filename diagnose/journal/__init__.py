"""The journal: one SQLite file that remembers plants, counts, cases, rankings, plans and outcomes.

It stores and returns frozen records (records.py) and computes nothing; `diagnose.collection` does that.

    with open_journal(locations.journal()) as journal:
        plant = plants.add_plant(journal, "Kettle", kind="alocasia", place="east window")
        counts.add_count(journal, plant.id, LeafCount(date=today, present=5, new=1, lost=0))

| file | what it holds |
|---|---|
| `schema.py` `open.py` `faults.py` | tables as named migrations; opening, transactions; what can go wrong, in words |
| `plants.py` `counts.py` | plants, places, photos, events; leaf counts and their totals (`stretches.py`) |
| `cases.py` `entries.py` | cases, every answer a row; outcomes |
| `rankings.py` `plans.py` | rankings as they stood; plans, their steps, what was seen later |
| `backup.py` `archive.py` | a copy by SQLite itself; the whole as a zip of CSV tables |

Every function that writes is one transaction: what it was given is on disk when it returns, or nothing of it is and
`BadInputError` says why. The order of entries is that of their ids, never the clock's.
"""

from diagnose.journal.open import Journal, open_journal

__all__ = ["Journal", "open_journal"]
