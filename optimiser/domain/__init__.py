"""Data that cannot be wrong: pydantic types that know neither the solver nor the terminal."""
