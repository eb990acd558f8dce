"""What a changed season costs: edits, comparison, cup draws, futures, sweeps."""
