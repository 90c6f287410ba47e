"""The terminal screens: the only home of Textual. One file a screen."""
