"""From the week to its days: where sessions go around matches and what each of them holds."""
