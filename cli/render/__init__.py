"""Pure functions from a result to text or a file."""
