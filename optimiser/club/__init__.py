"""The seasons of several squads, together as far as they share scarce hours."""
