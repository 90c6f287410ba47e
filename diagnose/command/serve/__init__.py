"""`diagnose serve`: the same screens on a page of this machine, for a browser."""
