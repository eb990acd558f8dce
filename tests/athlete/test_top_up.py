"""Who played little gets a top-up, and nobody who should not."""

import datetime as dt

import pytest

from cli.files.errors import InputError
from cli.files.minutes_file import read_minutes
from optimiser.athlete.card import WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.hold import Hold, Restart
from optimiser.athlete.squad import Athlete
from optimiser.athlete.top_up import Match, matches_around, top_ups

SATURDAY = dt.date(2026, 9, 12)
MONDAY = SATURDAY - dt.timedelta(days=5)


def who(group="squad", **fields):
    return Athlete(name="Ada", group=group, body_mass_kg=60, **fields)


def found(minutes, athlete=None, others=(), monday=MONDAY, hold=None, **more):
    matches = [Match(date=SATURDAY, minutes=minutes), *(Match(date=day) for day in others)]
    return top_ups(athlete or who(), matches, monday, hold or Hold(), **more)


@pytest.mark.parametrize(
    ("minutes", "asked"), [(0, (4, 10)), (15, (3, 8)), (29, (2, 6)), (30, None), (90, None)]
)
def test_the_less_was_played_the_more_is_made_up(minutes, asked):
    made = found(minutes)

    assert [(each.runs, each.intervals) for each in made] == ([asked] if asked else [])
    # within a day or two of the match (Hills et al. 2018, Sports Medicine)
    assert all(1 <= (day - SATURDAY).days <= 2 for each in made for day in each.days)


def test_minutes_nobody_wrote_down_make_none_but_for_those_who_do_not_play():
    assert found(None) == []
    assert found(None, who("non-playing"))[0].minutes == 0


def test_it_stays_away_from_the_next_match():
    tuesday, monday = (SATURDAY + dt.timedelta(days=days) for days in (3, 2))

    assert [each.days for each in found(0, others=[tuesday])] == [
        (SATURDAY + dt.timedelta(days=1),)
    ]
    assert found(0, others=[monday]) == []


def test_the_week_after_a_match_on_saturday_still_tells_of_it():
    later = MONDAY + dt.timedelta(days=7)

    assert found(0, monday=later)[0].days == found(0)[0].days
    assert found(0, monday=later + dt.timedelta(days=7)) == []


@pytest.mark.parametrize(
    "hold", [Hold(stage=4, share=0.5), Hold().restarted(Restart(), 1, volume=True)]
)
def test_there_is_none_on_the_way_back_and_soon_after_time_off(hold):
    assert found(0, hold=hold) == []


def test_what_is_restricted_is_left_out():
    assert found(0, banned={"hamstring"})[0].runs == 0
    assert found(0, banned={"knee"}) == []
    assert "on a bike" in found(0, banned={"hamstring"})[0].words


def test_under_18_it_is_the_least():
    (made,) = found(0, who(age=16))

    assert (made.runs, made.intervals) == (2, 6)


def test_days_away_are_passed_over():
    sunday, monday = (SATURDAY + dt.timedelta(days=days) for days in (1, 2))

    later = MONDAY + dt.timedelta(days=7)
    assert found(0, gone=[sunday], monday=later)[0].days == (monday,)
    assert found(0, gone=[sunday]) == []
    assert found(0, gone=[sunday, monday]) == []


def test_a_card_tells_it():
    week = WeekInfo(
        number=2, monday=MONDAY, phase="in-season",
        matches=matches_around([SATURDAY], MONDAY, {SATURDAY: 10.0}),
    )  # fmt: skip

    made = card(who(), [], week)

    assert made.top_ups[0].minutes == 10
    assert any(note.startswith("top-up for Sat 12 Sep (10 min played)") for note in made.notes)


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("Adda,2026-09-12,10", "did you mean ada?"),
        ("Ada,2026-09-13,10", "day of a match"),
        ("Ada,2026-09-12,ten", "from 0 to 240"),
        ("Ada,2026-09-12,", "line 2, minutes"),
    ],
)
def test_minutes_that_cannot_be_used_are_told_where_and_why(tmp_path, row, said):
    path = tmp_path / "minutes.csv"
    path.write_text(f"athlete,date,minutes\n{row}\n")

    with pytest.raises(InputError) as error:
        read_minutes(path, ["Ada"], {SATURDAY})
    assert said in error.value.message.lower()
