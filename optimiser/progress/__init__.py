"""A season in progress: what was done, the season as it was lived, and plan against reality."""
