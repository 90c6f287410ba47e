"""Charts in the terminal: one file a picture. Each only draws; the sentence beside it says the same in words."""
