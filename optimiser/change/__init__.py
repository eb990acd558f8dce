"""Changed seasons: what-ifs, drawn futures, cup rounds, and planning on in the season."""
