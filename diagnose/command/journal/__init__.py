"""What the journal's commands do, one file a concern; `words.py` has their names and options."""
