"""Questions, rules, causes, plants and advice as data: their shape, reading, names and logic."""
