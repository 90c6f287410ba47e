"""Why is this houseplant losing its leaves? Ranked causes, with the reasoning for every rank."""
