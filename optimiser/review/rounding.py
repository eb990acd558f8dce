"""How numbers are kept in files: so fine that rounding for people is the only rounding."""

#: Decimals; they hide what differs between machines, and nothing that a person is shown.
PLACES = 6


def kept(value: float) -> float:
    """Return a number as files hold it."""
    return round(value, PLACES)


def kept_or_none(value: float | None) -> float | None:
    """Return a number as files hold it; None where there is none."""
    return None if value is None else kept(value)
