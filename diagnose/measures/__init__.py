"""Numbers computed from answers: light, leaf history, air, roots and water, feeding."""
