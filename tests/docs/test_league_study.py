"""The lists of the study of a league differ in what they say they do."""

import datetime as dt
import sys
from collections import Counter
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "docs"))

from league_study import CLUBS, DESIGNS, Difference, lists, matches


@pytest.mark.parametrize("design", DESIGNS)
def test_everyone_meets_everyone_twice_and_plays_once_a_day(design):
    found = list(matches(design))
    days = Counter((each.date, club) for each in found for club in (each.home, each.away))

    assert max(days.values()) == 1
    league = [(each.home, each.away) for each in found if each.competition == "League"]
    assert len(set(league)) == len(league) == CLUBS * (CLUBS - 1)


def test_a_break_moves_two_rounds_and_a_third_cup_adds_six_matches_a_club():
    played = {design: set(matches(design)) for design in DESIGNS}
    base = played["as_it_is"]

    assert played["holiday"] == played["winter_break"]
    moved = base - played["winter_break"]
    assert {(each.date.year, each.date.month) for each in moved} == {(2027, 1)}
    assert len(moved) == len(played["winter_break"] - base) == 2 * CLUBS // 2
    free = {dt.date(2026, 12, 27) + dt.timedelta(days=day) for day in range(17)}
    assert free.isdisjoint(each.date for each in played["winter_break"])
    more = Counter(club for each in played["third_cup"] - base for club in (each.home, each.away))
    assert base < played["third_cup"]
    assert set(more.values()) == {6}
    assert len(more) == CLUBS


def test_lists_are_files_with_all_matches(tmp_path):
    lists(tmp_path)

    for design in DESIGNS:
        lines = (tmp_path / f"{design}.csv").read_text(encoding="utf-8").splitlines()
        assert len(lines) == 1 + len(list(matches(design)))


@pytest.mark.parametrize(
    ("middle", "low", "high", "blur", "told"),
    [
        (0.1, 0.05, 0.2, 0.15, "none this search can tell"),
        (0.3, -0.1, 0.6, 0.15, "none among these clubs"),
        (0.3, 0.1, 0.6, 0.15, ""),
        (0.0, -1.0, 1.0, 0.0, "none among these clubs"),
    ],
)
def test_what_the_gaps_leave_open_is_no_difference(middle, low, high, blur, told):
    assert Difference([middle], middle, low, high, blur).words == told
