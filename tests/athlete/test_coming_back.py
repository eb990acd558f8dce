"""The way back: stages that were entered, and the weeks after time off, on computed cards."""

import datetime as dt

import pytest
from card_weeks import MONDAY as BEGINS
from card_weeks import choices as week_of
from card_weeks import week as session_week

from optimiser.athlete.availability import AthleteHistory, Availability, AvailabilityEntry
from optimiser.athlete.card import ChosenBand, SessionDay, WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.exercise import Item
from optimiser.athlete.hold import NO_HOLD, Restart, hold_for
from optimiser.athlete.library import default_library
from optimiser.athlete.squad import Athlete
from optimiser.athlete.volume import built_up
from optimiser.days.session_days import for_athlete
from optimiser.domain.quality import Dose
from optimiser.setup.qualities import default_qualities

MONDAY = dt.date(2026, 10, 5)
WEEK = WeekInfo(number=9, monday=MONDAY, phase="in-season", field=2, gym=2)
LADDERS = default_qualities()
LIBRARY = default_library()
WHO = Athlete(
    name="Ada",
    group="squad",
    body_mass_kg=70,
    plyometrics_ready=True,
    lifts={key: {"one_rm_kg": 100} for key in ("squat", "bench_press", "power_clean")},
    splits={5: 1.12, 10: 1.93, 20: 3.33, 30: 4.65},
)
EXERCISES = {exercise.name: exercise for exercise in LIBRARY.exercises.values()}
EVERY = [
    pytest.param(quality, rung, dose, id=f"{quality.bands[rung].code}-{dose.word}")
    for quality in LADDERS
    for rung in range(len(quality.bands))
    for dose in list(Dose)[1:]
]


def staged(stage, first=MONDAY - dt.timedelta(days=3), **fields):
    status = {0: "out", 6: "available"}.get(stage, "limited")
    given = stage if status == "limited" else None
    fields = {"words": "no kicking", **fields}
    return AvailabilityEntry(athlete="Ada", first=first, status=status, stage=given, **fields)


def lines(choice, hold):
    found = card(WHO, [choice], WEEK, hold=hold)
    return [line for part in found.sections for line in part.lines]


def held(*entries, monday=MONDAY):
    return hold_for(Availability(entries=entries).of("ada"), monday)


def metres(found):
    return sum(line.sets * ((line.metres or 0) + (line.lead_in or 0)) for line in found)


def contacts(found):
    return sum(line.contacts for line in found)


def repetitions(found):
    return sum(line.sets * line.reps[1] for line in found if line.reps)


def own_band(choice, hold, dose):
    """Return the lines of the band that is done, as somebody without limits would do them."""
    (part,) = card(WHO, [choice], WEEK, hold=hold).sections
    codes = [band.code for band in choice.quality.bands]
    own = ChosenBand(quality=choice.quality, rung=codes.index(part.code), dose=dose)
    return card(WHO, [own], WEEK).sections[0].lines


@pytest.mark.parametrize("stage", range(1, 6))
@pytest.mark.parametrize(("quality", "rung", "dose"), EVERY)
def test_no_stage_goes_beyond_its_limits(quality, rung, dose, stage):
    choice = ChosenBand(quality=quality, rung=rung, dose=dose)
    share = 0.75 if stage == 5 else 0.5

    found = lines(choice, held(staged(stage)))
    free = card(WHO, [choice], WEEK).sections[0].lines
    own = own_band(choice, held(staged(stage)), dose)

    assert metres(found) <= share * metres(free)
    assert contacts(found) <= share * contacts(own)
    assert repetitions(found) <= share * repetitions(own)
    loads = [line.kg[1] for line in found if line.kg and not line.metres]
    adult = [line.kg[1] for line in free if line.kg and not line.metres]
    assert max(loads, default=0) <= max(adult, default=0) or rung > 1
    speeds = {1: 0, 2: 70, 3: 80, 4: 90}
    for line in found:
        exercise = EXERCISES[line.exercise]
        if stage < 5 and line.metres:
            assert exercise.load != "sled"
            assert float(line.how.split("-")[1].split()[0]) <= speeds[stage]
        if stage < 3:
            assert not exercise.jump
            assert not exercise.fast or line.metres
        if stage == 3:
            assert not exercise.single
    if stage == 1 and quality.place == "field":
        assert not found


@pytest.mark.parametrize(("quality", "rung", "dose"), EVERY)
def test_every_section_that_is_left_without_work_says_so(quality, rung, dose):
    choice = ChosenBand(quality=quality, rung=rung, dose=dose)

    for stage in range(1, 6):
        (part,) = card(WHO, [choice], WEEK, hold=held(staged(stage))).sections
        assert part.lines or any("leave it out" in note for note in part.notes)


def test_first_sessions_are_at_70_per_cent_of_the_last_1rm():
    squat = ChosenBand(quality=LADDERS[4], rung=0, dose=Dose.FULL)

    (line, _) = lines(squat, held(staged(2)))

    assert line.exercise == "Back squat"
    # 75 % of 70 kg, told as 52 % of the 1RM, and no bar above it
    assert line.kg == (50.0, 50.0)


def test_a_stage_stands_until_somebody_enters_the_next():
    entry = staged(2, last=MONDAY - dt.timedelta(days=1))

    later = held(entry, monday=MONDAY + dt.timedelta(days=70))

    assert later.stage == 2
    assert any("stands until the medical team enters the next" in note for note in later.notes)


def test_an_absence_ends_by_itself_and_what_was_hurt_before_it_does_not():
    away = AvailabilityEntry(
        athlete="Ada", first=MONDAY, last=MONDAY + dt.timedelta(days=6), status="away"
    )

    assert held(staged(3), away).away
    assert held(staged(3), away, monday=MONDAY + dt.timedelta(days=7)).stage == 3


def test_who_is_out_gets_no_work_and_what_comes_later_in_the_week_is_told():
    back = staged(1, first=MONDAY + dt.timedelta(days=3))
    choices = [ChosenBand(quality=quality, rung=2, dose=Dose.FULL) for quality in LADDERS]

    out = card(WHO, choices, WEEK, hold=held(staged(0)))
    assert not out.sections
    assert "2026-10-02" in out.notes[0]
    told = held(staged(0), back).notes
    assert any(note.startswith("no work on Mon 05 Oct, Tue 06 Oct, Wed 07 Oct") for note in told)


def test_sessions_before_a_clearance_are_marked():
    days = [MONDAY, MONDAY + dt.timedelta(days=4)]
    info = WEEK.model_copy(update={"sessions": [SessionDay(place="gym", date=d) for d in days]})
    history = Availability(entries=(staged(0), staged(1, first=days[1]))).of("Ada")

    assert [found.away for found in for_athlete(info, WHO, history).sessions] == [True, False]


def test_the_lowest_stage_of_a_week_holds_all_of_it():
    assert held(staged(2), staged(3, first=MONDAY + dt.timedelta(days=2))).stage == 2


def test_the_medical_teams_words_stand_on_the_card_and_their_parts_are_left_out():
    hold = held(staged(4, tags=("knee",), words="no kicking before the scan"))

    found = card(WHO, [ChosenBand(quality=LADDERS[4], rung=1, dose=Dose.FULL)], WEEK, hold=hold)

    assert any("no kicking before the scan" in note for note in found.notes)
    assert any("what loads knee is left out altogether" in note for note in found.notes)
    assert "knee" not in {tag for line in found.sections[0].lines
                          for tag in EXERCISES[line.exercise].avoid}  # fmt: skip


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        (staged(2, first=MONDAY), staged(3, first=MONDAY + dt.timedelta(days=1)), "lasted 1 day;"),
        (staged(1, first=MONDAY), staged(4, first=MONDAY + dt.timedelta(days=5)), "left out"),
    ],
)
def test_steps_that_are_short_or_left_out_are_questioned_and_kept(first, second, said):
    hold = held(first, second)

    assert any(said in note for note in hold.notes)
    assert held(first, second, monday=MONDAY + dt.timedelta(days=7)).stage == second.stage


# --- the weeks after an absence -----------------------------------------------------------


def back_after(days, weeks, restart=None):
    """Return the hold of a week, ``weeks`` after an absence of ``days`` that ended on a Sunday."""
    last = MONDAY - dt.timedelta(days=1)
    gone = AvailabilityEntry(
        athlete="Ada", first=last - dt.timedelta(days=days - 1), last=last, status="away"
    )
    return hold_for(AthleteHistory(entries=(gone,)), MONDAY + dt.timedelta(weeks=weeks), restart)


def test_a_fortnight_away_starts_low_and_climbs_with_the_rule():
    found = [back_after(14, week) for week in range(5)]

    assert [hold.rung for hold in found] == [2, 3, 4, 5, None]
    assert [hold.full_share for hold in found] == [0.5, 0.7, 0.8, 0.9, 1.0]
    assert [hold.load for hold in found] == [0.7, 0.8, 0.9, 1.0, 1.0]


def test_three_weeks_away_start_at_the_bottom_as_the_plan_does_after_closed_weeks():
    assert [back_after(21, week).rung for week in range(5)] == [1, 2, 3, 4, None]
    assert back_after(20, 0).rung == 2


def test_less_than_the_rules_days_changes_nothing():
    assert back_after(13, 0).free
    assert back_after(13, 0, Restart(days_off=7, rung=1, volume=(40,))).rung == 1


@pytest.mark.parametrize(("quality", "rung", "dose"), EVERY)
def test_the_first_week_back_holds_at_most_half_of_a_full_dose(quality, rung, dose):
    choice = ChosenBand(quality=quality, rung=rung, dose=dose)
    planned = card(WHO, [ChosenBand(quality=quality, rung=rung, dose=Dose.FULL)], WEEK).sections[0]
    whole = own_band(choice, back_after(21, 0), Dose.FULL)

    found = lines(choice, back_after(21, 0))

    assert metres(found) <= 0.5 * metres(planned.lines)
    assert contacts(found) <= 0.5 * contacts(whole)
    assert repetitions(found) <= 0.5 * repetitions(whole)


#: Field work is on Tuesday, gym work on Wednesday.
WEDNESDAY = BEGINS + dt.timedelta(days=2)


def held_then(*entries):
    """Return what holds in the week of sessions, by a stage before it and those of its days."""
    return held(*entries, monday=BEGINS)


def at_first(stage):
    return staged(stage, BEGINS - dt.timedelta(days=3))


def session_lines(made, place):
    (found,) = (session for session in made.sessions if session.place == place)
    return [line for block in found.blocks for line in block.lines if not line.step]


@pytest.mark.parametrize(("before", "after"), [(2, 4), (2, 6), (4, 2)])
@pytest.mark.parametrize("rung", range(5))
def test_each_session_keeps_to_the_stage_of_its_own_day(rung, before, after):
    hold = held_then(at_first(before), staged(after, WEDNESDAY))
    choices, info = week_of(rung, Dose.FULL), session_week(Dose.FULL)

    made = card(WHO, choices, info, hold=hold)
    alone = {
        place: card(WHO, choices, info, hold=held_then(at_first(stage)))
        for place, stage in (("field", before), ("gym", after))
    }

    for place, found in alone.items():
        assert session_lines(made, place) == session_lines(found, place)
    words = f"stage {after}" if after < 6 else "with the squad"
    assert any(f"from {WEDNESDAY:%a %d %b} on {words}" in note for note in made.notes)


def test_the_week_as_a_whole_keeps_to_its_lowest_stage():
    choices, info = week_of(3, Dose.FULL), session_week(Dose.FULL)

    made = card(WHO, choices, info, hold=held_then(at_first(2), staged(6, WEDNESDAY)))

    lowest = card(WHO, choices, info, hold=held_then(at_first(2)))
    assert made.sections == lowest.sections
    monday, wednesday = f"{BEGINS:%a %d %b}", f"{WEDNESDAY:%a %d %b}"
    loads = f"loads are taken from 70 % from {monday}, 100 % from {wednesday} of the last 1RM"
    assert any(note.startswith(loads) for note in made.notes)
    assert any(note.startswith("loads are taken from 70 % of") for note in lowest.notes)
    assert made.top_ups == ()


def test_time_off_holds_on_every_day_of_a_week_whose_stage_changes():
    hold = held_then(at_first(2), staged(6, WEDNESDAY)).restarted(Restart(), 0, volume=True)

    assert all(each.rung is not None and each.rung <= 2 for _, each in hold.days)


@pytest.mark.parametrize("stage", range(1, 6))
def test_the_standing_programme_begins_again_on_the_way_back(stage):
    made = card(
        WHO, week_of(1, Dose.FULL), session_week(Dose.FULL), hold=held_then(at_first(stage))
    )

    standing = {line.key: line for session in made.sessions for block in session.blocks
                for line in block.lines if line.step}  # fmt: skip
    assert "adduction_side" in standing
    if stage < 3:
        assert "hamstring_lowering" not in standing
    else:
        # the first week of Petersen et al. (2011) and of van der Horst et al. (2015)
        assert (standing["hamstring_lowering"].sets, standing["hamstring_lowering"].reps) == (
            2,
            (5, 5),
        )


@pytest.mark.parametrize(("weeks", "sets", "reps"), [(0, 2, 5), (2, 3, 6), (5, 3, 10)])
def test_who_was_away_climbs_through_the_standing_programme_anew(weeks, sets, reps):
    hold = NO_HOLD.restarted(Restart(), weeks, volume=True)
    made = card(WHO, week_of(1, Dose.FULL), session_week(Dose.FULL), hold=hold)
    lines = [line for session in made.sessions for block in session.blocks for line in block.lines]
    (lowering,) = (line for line in lines if line.key == "hamstring_lowering")

    assert (lowering.sets, lowering.reps[1]) == (sets, reps)


def test_gym_only_means_no_session_on_the_field():
    made = card(WHO, week_of(2, Dose.FULL), session_week(Dose.FULL), hold=held_then(at_first(1)))

    assert [session.place for session in made.sessions] == ["gym"]


@pytest.mark.parametrize(("metres", "speed"), [(10, 70), (15, 75), (20, 80), (30, 90), (40, 90)])
def test_a_run_cut_short_is_no_start_all_out(metres, speed):
    run = Item(exercise="build_up_run", metres=metres, speed="80-90")

    assert built_up(run).speed == (speed - 10, speed)


@pytest.mark.parametrize(("stage", "fastest"), [(2, 70), (3, 80), (4, 90)])
def test_who_may_run_but_not_load_the_hamstring_does_what_the_stage_allows_on_a_bike(
    stage, fastest
):
    sprint = ChosenBand(quality=LADDERS[0], rung=3, dose=Dose.FULL)

    (line,) = lines(sprint, held(staged(stage, tags=("hamstring",))))

    assert line.exercise == "Short bike effort"
    effort = [float(word) for word in line.how.replace("-", " ").split() if word.isdigit()]
    assert len(effort) == 2
    assert max(effort) <= fastest
