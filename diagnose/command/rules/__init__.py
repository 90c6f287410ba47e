"""`diagnose rules …`: the tools for those who write rules. One file a verb."""
