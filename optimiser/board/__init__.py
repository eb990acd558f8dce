"""Decision variables and the linear rows between them; the only place that knows indices."""
