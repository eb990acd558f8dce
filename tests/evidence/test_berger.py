"""Round-robin tables against the printed ones: FIDE Handbook C.05, Annex 1 (Berger tables)."""

import re

import pytest

from optimiser.league.berger import double_table, single_table

PRINTED = {
    6: "1-6 2-5 3-4 | 6-4 5-3 1-2 | 2-6 3-1 4-5 | 6-5 1-4 2-3 | 3-6 4-2 5-1",
    8: "1-8 2-7 3-6 4-5 | 8-5 6-4 7-3 1-2 | 2-8 3-1 4-7 5-6 | 8-6 7-5 1-4 2-3 "
    "| 3-8 4-2 5-1 6-7 | 8-7 1-6 2-5 3-4 | 4-8 5-3 6-2 7-1",
    10: "1-10 2-9 3-8 4-7 5-6 | 10-6 7-5 8-4 9-3 1-2 | 2-10 3-1 4-9 5-8 6-7 "
    "| 10-7 8-6 9-5 1-4 2-3 | 3-10 4-2 5-1 6-9 7-8 | 10-8 9-7 1-6 2-5 3-4 "
    "| 4-10 5-3 6-2 7-1 8-9 | 10-9 1-8 2-7 3-6 4-5 | 5-10 6-4 7-3 8-2 9-1",
}


def printed(clubs):
    rounds = PRINTED[clubs].split("|")
    return [sorted(tuple(map(int, pair.split("-"))) for pair in text.split()) for text in rounds]


def longest_run(table, club):
    where = "".join("H" if any(home == club for home, _ in pairs) else "A" for pairs in table)
    return max(len(run) for run in re.findall("H+|A+", where))


@pytest.mark.parametrize("clubs", sorted(PRINTED))
def test_the_table_is_the_printed_one(clubs):
    table = single_table(clubs)

    assert [sorted(pairs) for pairs in table] == printed(clubs)


SIZES = [(8, 7, 28), (10, 9, 45), (12, 11, 66), (14, 13, 91)]


@pytest.mark.parametrize(("clubs", "rounds", "matches"), SIZES)
def test_the_table_has_the_printed_size_and_each_pair_once(clubs, rounds, matches):
    table = single_table(clubs)
    pairs = {frozenset(pair) for here in table for pair in here}

    assert (len(table), sum(map(len, table)), len(pairs)) == (rounds, matches, matches)


def test_eight_clubs_have_four_or_three_home_games():
    table = single_table(8)

    homes = [sum(home == club for pairs in table for home, _ in pairs) for club in range(1, 9)]
    assert homes == [4, 4, 4, 4, 3, 3, 3, 3]


@pytest.mark.parametrize("clubs", [6, 8, 10])
def test_swapping_the_last_two_rounds_keeps_runs_at_two(clubs):
    plain = double_table(clubs, swap=False)
    swapped = double_table(clubs)

    assert max(longest_run(plain, club) for club in range(1, clubs + 1)) == 3
    assert max(longest_run(swapped, club) for club in range(1, clubs + 1)) == 2
