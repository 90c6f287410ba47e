"""The whole collection: what stands out, what is due, what past cases teach. Pure functions over journal records.

Nothing here reads the journal, the clock or a file: the faces hand records in and get frozen records back.

| file | question it answers |
|---|---|
| `overview.py` `choose.py` | how is each plant, what is due; sorted, filtered, searched |
| `standout.py` `shared.py` | whose losses rose beyond chance, and what do those plants share |
| `neighbours.py` | what does the journal know of this plant's neighbours, as facts for rules |
| `followup.py` | whose plan asks to look again; what came of it |
| `learning.py` `strengths.py` | how good were the rankings, which rules helped, what strengths fit |
| `leaf_table.py` | leaf counts from a CSV table with any columns |
| `chance.py` | the tests and intervals behind all this |
"""
