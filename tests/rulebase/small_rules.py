"""A small sound rule base as TOML, for tests of loading and checking."""

SMALL = """
[[source]]
id = "X-1"
title = "A page on windows"
author = "Nobody in particular"

[[subject]]
id = "light"
name = "Light"

[[question]]
id = "window"
subject = "light"
text = "Which way does it face?"
help = "Use a compass."
why = "It tells how much sun there is."
kind = "choice"
effort = "look"
choices = [ { id = "north", label = "north" }, { id = "east", label = "east" }, { id = "south", label = "south" } ]

[[question]]
id = "night_c"
subject = "light"
text = "How cold is the night?"
help = "Use a thermometer."
why = "Cold harms."
kind = "number"
unit = "°C"
least = 0
most = 40
effort = "look"

[[finding]]
id = "dim"
text = "the place is dim"

[[rule]]
id = "dim_in_the_north"
gives = "dim"
when = { fact = "window", is = "north" }
because = "The window faces {window}."
origin = "X-1"
fires = [ { window = "north" } ]
silent = [ { window = "south" } ]

[[cause]]
id = "dark"
name = "too little light"
what = "Too little light."
looks = "Long stalks."
settles = "Measure it."
prior_db = -5
origin = "common practice"
advice = ["move"]

[[advice]]
id = "move"
text = "Move it."
how = "To the south."
effort = "touch"
order = 1
origin = "common practice"

[[evidence]]
id = "dim_speaks"
cause = "dark"
speaks = "for"
strength = "strong"
when = { finding = "dim" }
because = "It is dim."
origin = "common practice"
fires = [ { window = "north" } ]
silent = [ { window = "south" } ]

[[evidence]]
id = "warm_speaks"
cause = "dark"
speaks = "against"
strength = "slight"
when = { fact = "night_c", above = 15 }
because = "Nights are warm."
origin = "common practice"
fires = [ { night_c = 18 } ]
silent = [ { night_c = 15 } ]
"""


def entry(entry_id: str) -> str:
    """Return the text of one entry of the small rule base."""
    return next(text for text in SMALL.split("\n\n") if f'\nid = "{entry_id}"\n' in text) + "\n"
