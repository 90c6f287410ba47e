"""The commands that give reasons: why, next, whatif, firm."""
