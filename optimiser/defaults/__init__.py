"""Default ladders, as data."""
