"""The coaching rules, one a file; the catalogue of all of them is below."""
