"""Groups of a squad: the same blocks and sessions, each with doses for the matches it plays."""
