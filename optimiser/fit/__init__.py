"""A quality's time constants and gains, estimated from a squad's own tests and load."""
