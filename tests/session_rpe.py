"""Session-RPE load of one session."""


def session_load(rpe: float, minutes: float) -> float:
    """Return the load of one session, in AU: rating times minutes.

    Parameters
    ----------
    rpe
        Rating of the whole session, 0 (rest) to 10 (maximal).
    minutes
        Length of the session.

    Raises
    ------
    ValueError
        If ``rpe`` lies outside 0 to 10 or ``minutes`` is negative.

    References
    ----------
    Foster et al. (2001), Journal of Strength and Conditioning Research 15(1): 109-115.
    """
    if not 0 <= rpe <= 10:
        raise ValueError(f"rpe must lie in 0 to 10 (got {rpe:g})")
    if not 0 <= minutes < float("inf"):
        raise ValueError(f"minutes must be 0 or more (got {minutes:g})")
    return rpe * minutes
