"""Days named by the matches around them."""

#: MD- reaches back this far, MD+ this far forward.
FARTHEST_BEFORE, FARTHEST_AFTER = 6, 2


def label(since: int | None, until: int | None) -> str:
    """Return the name of a day: MD, MD-n, MD+n, or nothing far from any match.

    The two days after a match look back to it if it is nearer than the next one; every other day
    looks ahead, a tie too. Seven days from match to match read MD+1, MD+2, MD-4, MD-3, MD-2, MD-1
    (convention of the trade, no source).

    Parameters
    ----------
    since, until
        Days from the last match and to the next one, 0 on a match day; None if there is none.
    """
    if since == 0 or until == 0:
        return "MD"
    near = until is None or (since is not None and since < until)
    if since is not None and since <= FARTHEST_AFTER and near:
        return f"MD+{since}"
    return f"MD-{until}" if until is not None and until <= FARTHEST_BEFORE else ""
