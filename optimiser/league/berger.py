"""Round-robin tables: who plays whom in which round."""

Pair = tuple[int, int]
Round = list[Pair]


def single_table(clubs: int) -> list[Round]:
    """Return a single round robin of ``clubs`` clubs, numbered from 1; home first.

    An odd number plays the table of one more club; whoever meets that number has a bye and
    stands in no pair of the round.

    Raises
    ------
    ValueError
        If there are fewer than two clubs.

    References
    ----------
    Berger tables as printed in FIDE Handbook C.05, Annex 1.
    """
    if clubs < 2:
        raise ValueError(f"a table needs at least 2 clubs (got {clubs}); add some")
    even = clubs + clubs % 2
    rounds = [_round(even, number) for number in range(even - 1)]
    return [[pair for pair in pairs if max(pair) <= clubs] for pairs in rounds]


def double_table(clubs: int, *, swap: bool = True) -> list[Round]:
    """Return a double round robin: the table, then the table with home and away reversed.

    Parameters
    ----------
    swap
        Play the last two rounds of the first half in reverse order, which keeps every run of
        home or of away matches at two or fewer where the number of clubs is even and at
        least 6 (FIDE Handbook C.05, Annex 1).
    """
    first = single_table(clubs)
    second = [[(away, home) for home, away in pairs] for pairs in first]
    if swap and len(first) > 1:
        first[-2:] = [first[-1], first[-2]]
    return first + second


def _round(even: int, number: int) -> Round:
    def at(place: int) -> int:
        return (place + number * even // 2) % (even - 1) + 1

    last = (at(0), even) if number % 2 == 0 else (even, at(0))
    return [last, *((at(place), at(even - 1 - place)) for place in range(1, even // 2))]
