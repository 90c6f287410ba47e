"""What the grower keeps: a plan to follow and a page to show; how files are written."""
