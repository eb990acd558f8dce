"""A knock-out cup with results left to chance."""

from random import Random

Pair = tuple[int, int]


def cup_rounds(clubs: int) -> int:
    """Return how many rounds a knock-out of ``clubs`` has."""
    return (clubs - 1).bit_length()


def draw_cup(clubs: int, chance: Random) -> list[list[Pair]]:
    """Return who meets whom in each round, indices from 0, home first; the final comes last.

    Clubs too many for a power of two play a first round; the others are drawn past it.
    """
    left = list(range(clubs))
    rounds = []
    for number in range(cup_rounds(clubs)):
        chance.shuffle(left)
        playing = 2 * (clubs - 2 ** (cup_rounds(clubs) - 1)) if number == 0 else len(left)
        pairs = list(zip(left[:playing:2], left[1:playing:2], strict=True))
        winners = [chance.choice(pair) for pair in pairs]
        left = winners + left[playing:]
        rounds.append(pairs)
    return rounds
