"""Planning on in the season: what is done stays, and little changes."""
