"""From a scenario to a season: weeks, phases, events, ladders, and what is wanted of each week."""
