"""The trade: pure functions in plain floats behind a door; no widgets, no plots, no files."""
