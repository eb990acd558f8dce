"""Tables of odd sizes and double tables."""

import pytest

from optimiser.league.berger import double_table, single_table


@pytest.mark.parametrize("clubs", [5, 7, 9, 11])
def test_an_odd_club_out_has_one_bye_a_single_round_robin(clubs):
    table = single_table(clubs)

    byes = [set(range(1, clubs + 1)) - {club for pair in pairs for club in pair} for pairs in table]
    assert sorted(club for out in byes for club in out) == list(range(1, clubs + 1))
    assert all(len(out) == 1 for out in byes)


@pytest.mark.parametrize("clubs", [4, 7, 12])
def test_a_double_table_plays_every_pair_at_both_grounds(clubs):
    table = double_table(clubs)

    pairs = sorted(pair for here in table for pair in here)
    everyone = range(1, clubs + 1)
    assert pairs == [(home, away) for home in everyone for away in everyone if home != away]


def test_one_club_is_no_league():
    with pytest.raises(ValueError, match="at least 2 clubs"):
        single_table(1)
