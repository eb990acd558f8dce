import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.athlete.allowed import allowed_rung, intensity
from optimiser.athlete.card import ChosenBand, Kit, SessionDay, WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.dose_sets import scaled_sets
from optimiser.athlete.library import default_library
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose
from optimiser.setup.qualities import default_qualities

WEEK = WeekInfo(number=9, monday=dt.date(2026, 9, 7), phase="in-season", field=2, gym=1)
LADDERS = {quality.key: quality for quality in default_qualities()}
SPLITS = {10: 2.1158, 20: 3.4031, 30: 4.6128}  # top speed 8.5 m/s, time constant 1.1 s


def athlete(**fields):
    given = {"name": "Ada", "group": "squad", "body_mass_kg": 80, "plyometrics_ready": True}
    return Athlete(**{**given, **fields})


def section(who, key, rung, dose=Dose.FULL, **more):
    choice = ChosenBand(quality=LADDERS[key] if isinstance(key, str) else key, rung=rung, dose=dose)
    (found,) = card(who, [choice], WEEK, **more).sections
    return found


def first(who, key, rung, dose=Dose.FULL, **more):
    return section(who, key, rung, dose, **more).lines[0]


@pytest.mark.parametrize(
    ("sets", "touch", "reduced", "full"),
    [(1, 1, 1, 1), (2, 1, 1, 2), (3, 1, 2, 3), (4, 1, 2, 4), (5, 2, 3, 5), (10, 3, 6, 10)],
)
def test_doses_scale_sets_and_leave_at_least_one(sets, touch, reduced, full):
    found = [scaled_sets(sets, dose) for dose in (Dose.TOUCH, Dose.REDUCED, Dose.FULL)]

    assert found == [touch, reduced, full]


def test_a_measured_1rm_gives_kilograms_that_can_be_loaded():
    line = first(athlete(lifts={"squat": {"one_rm_kg": 141}}), "max_strength", 2)

    assert (line.sets, line.reps, line.kg, line.percent) == (5, (3, 3), (117.5, 117.5), (85, 85))
    assert line.reserve == (3, 3)
    assert line.how == "1RM 141 kg"


def test_an_estimated_1rm_names_its_equation_and_its_error():
    line = first(athlete(lifts={"squat": {"load_kg": 120, "reps": 5}}), "max_strength", 2)

    assert line.kg == (112.5, 112.5)
    assert line.how == "1RM about 135 kg (Brzycki, ±5-7 %)"


@pytest.mark.parametrize("lifts", [{}, {"squat": {"load_kg": 90, "reps": 12}}])
def test_without_a_test_that_can_tell_it_goes_by_effort(lifts):
    line = first(athlete(lifts=lifts), "max_strength", 2)

    assert line.kg is None
    assert line.how == "by feel, leave 3 (RPE 7)"


@pytest.mark.parametrize("rung", [3, 4])
def test_without_a_test_heavy_doubles_and_singles_leave_three(rung):
    line = first(athlete(lifts={}), "max_strength", rung)

    assert (line.how, line.reserve) == ("by feel, leave 3 (RPE 7)", (3, 3))
    assert first(athlete(lifts={"squat": {"one_rm_kg": 100}}), "max_strength", rung).reserve < (3,)


def test_a_band_of_heavy_lifts_done_without_a_bar_is_not_called_by_their_percentage():
    part = section(
        athlete(), "max_strength", 3, kit=Kit(missing=tuple(default_library().equipment))
    )

    assert part.lines
    assert (part.code, part.label) == ("M4", "without its loads")


def test_a_set_of_one_is_the_1rm_itself():
    line = first(athlete(lifts={"squat": {"load_kg": 100, "reps": 1}}), "max_strength", 1)

    assert (line.kg, line.how) == ((80, 80), "1RM 100 kg")


def test_jump_squats_are_loaded_from_the_squat_down_to_body_mass():
    line = first(athlete(lifts={"squat": {"one_rm_kg": 150}}), "power", 3)

    assert line.exercise == "Jump squat"
    assert line.kg == (0, 30)


def test_a_load_below_the_bar_is_said_and_not_made_up():
    line = first(athlete(lifts={"squat": {"one_rm_kg": 80}}), "power", 3)

    assert line.kg is None
    assert "16 kg at most, lighter than can be loaded" in line.how
    assert "take a lighter bar, a light dumbbell or body mass" in line.how


@given(
    st.floats(20, 350),
    st.sampled_from(["squat", "dumbbell_press", "romanian_deadlift", "row"]),
    st.integers(0, 3),
)
def test_loads_stay_within_half_a_step_of_the_athletes_own_percentage(one_rm, key, rung):
    found = section(athlete(lifts={key: {"one_rm_kg": one_rm}}), "general_strength", rung)

    loaded = [line for line in found.lines if line.kg]
    for line in loaded:
        assert line.kg[1] - one_rm * line.percent[1] / 100 <= 1.25 + 1e-6
    assert len(loaded) <= 1


@pytest.mark.parametrize("rung", range(5))
def test_an_own_sled_line_sets_the_load(rung):
    who = athlete(sled_losses={20: 13.5, 80: 53.8})

    own, usual = first(who, "resisted_sprint", rung), first(athlete(), "resisted_sprint", rung)

    assert own.kg[1] <= usual.kg[1]
    assert not section(who, "resisted_sprint", rung).notes
    assert "no sled test" in section(athlete(), "resisted_sprint", rung).notes[0]


def test_the_usual_sled_load_by_body_mass():
    # 65-75 % of 177 % of 80 kg is 92.0-106.2 kg.
    assert first(athlete(), "resisted_sprint", 0).kg == (90, 105)


def test_splits_give_times_and_speeds():
    who = athlete(splits=SPLITS)

    assert first(who, "sprint", 2).target == "3.40 s"
    assert first(who, "sprint", 4).target == "8.3-8.5 m/s"
    assert first(athlete(), "sprint", 2).target == ""


@pytest.mark.parametrize(
    "splits", [{10: 1.9, 20: 3.1}, {5: 1.1, 10: 1.9, 20: 3.1}, {10: 1.0, 20: 2.0, 30: 3.0}]
)
def test_splits_that_cannot_carry_a_curve_give_no_target(splits):
    assert first(athlete(splits=splits), "sprint", 2).target == ""


@pytest.mark.parametrize("key", LADDERS)
@pytest.mark.parametrize("rung", range(5))
def test_under_18_never_gets_90_per_cent(key, rung):
    who = athlete(age=16, lifts={"squat": {"one_rm_kg": 100}, "bench_press": {"one_rm_kg": 60}})
    library = default_library()

    found = section(who, key, rung)
    held, _ = allowed_rung(who, LADDERS[key], rung, library)
    items = library.items(LADDERS[key], held)
    assert found.code == LADDERS[key].bands[held].code
    assert all(intensity(item, library.exercises[item.exercise]) < 90 for item in items)
    assert all(line.percent is None or line.percent[1] < 90 for line in found.lines)


def test_under_18_stays_out_of_low_repetitions_also_without_percentages(own_ladders, own_work):
    lift = own_ladders["main_lift"]

    found = [section(athlete(age=16), lift, rung, library=own_work) for rung in range(3)]
    assert [part.code for part in found] == ["C1", "C1", "C1"]
    assert found[2].notes[0].startswith("in place of C3: under 18")


def test_under_18_is_told_of_days_and_rises():
    notes = card(athlete(under_18=True), [], WEEK).notes

    assert "3 days" in notes[0]
    assert "10 %" in notes[0]


@pytest.mark.parametrize("dose", list(Dose)[1:])
def test_who_is_not_cleared_gets_no_work_and_is_told_whom_to_ask(dose):
    since = dt.date(2026, 8, 3)
    gym = SessionDay(place="gym", date=WEEK.monday, work=("Power",), minutes=30)
    who = athlete(group="returning", unavailable_from=since, unavailable_to=since)
    choices = [ChosenBand(quality=quality, rung=4, dose=dose) for quality in LADDERS.values()]

    found = card(who, choices, WEEK.model_copy(update={"sessions": (gym,)}))

    assert found.sections == ()
    assert (found.week.field, found.week.gym, found.week.sessions) == (0, 0, ())
    (note,) = found.notes
    for words in ("no work", "medical team", "2026-08-03"):
        assert words in note


def test_who_is_cleared_gets_work():
    assert section(athlete(group="returning", cleared=True), "max_strength", 1).lines


@pytest.mark.parametrize("week", range(4))
@pytest.mark.parametrize("rung", range(5))
@pytest.mark.parametrize("key", sorted(LADDERS))
def test_a_group_that_comes_back_climbs_a_rung_a_week_whatever_the_squad_does(key, rung, week):
    info = WEEK.model_copy(update={"back": week, "days_off": 0 if week else 56})
    choice = ChosenBand(quality=LADDERS[key], rung=rung, dose=Dose.REDUCED)

    (found,) = card(athlete(), [choice], info).sections

    assert found.code == LADDERS[key].bands[min(rung, week + 1)].code
    lower = rung > week + 1
    assert lower == any(f"week {week + 1} after time off" in note for note in found.notes)


def test_top_jump_bands_wait_for_the_tick():
    found = section(athlete(plyometrics_ready=False), "plyometrics", 4)

    assert (found.planned, found.code) == ("P5", "P3")
    assert "readiness tick" in found.notes[0]


def test_contacts_are_of_all_sets():
    found = section(athlete(), "plyometrics", 1, Dose.REDUCED)

    assert [line.contacts for line in found.lines] == [20, 20, 20]


def test_heavy_athletes_drop_from_less():
    assert "0.46 m" in section(athlete(body_mass_kg=101), "plyometrics", 4).notes[0]
    assert not section(athlete(body_mass_kg=100), "plyometrics", 4).notes


@pytest.mark.parametrize("key", LADDERS)
@pytest.mark.parametrize("rung", range(5))
@pytest.mark.parametrize("tag", sorted(default_library().tags))
def test_nothing_restricted_stays_on_a_card(key, rung, tag):
    avoiding = {e.name for e in default_library().exercises.values() if tag in e.avoid}

    lines = section(athlete(restrictions=[{"tag": tag}]), key, rung).lines
    names = [line.exercise for line in lines]
    assert not avoiding & set(names)
    assert len(names) == len(set(names))


def test_a_restriction_of_another_week_changes_nothing():
    over = athlete(restrictions=[{"tag": "knee", "last": "2026-09-06"}])

    assert section(over, "max_strength", 2) == section(athlete(), "max_strength", 2)


def test_a_stand_in_is_loaded_from_its_own_test():
    who = {"restrictions": [{"tag": "shoulder"}], "lifts": {"hex_bar_deadlift": {"one_rm_kg": 160}}}

    line = first(athlete(**who), "max_strength", 3)
    assert (line.exercise, line.reps, line.kg) == ("Hex-bar deadlift", (2, 2), (142.5, 142.5))
    assert line.note == "in place of Back squat (shoulder restricted)"


def test_a_stand_in_without_a_test_has_no_more_repetitions_and_is_far_from_failure():
    line = first(athlete(restrictions=[{"tag": "shoulder"}]), "max_strength", 4)

    assert (line.exercise, line.reps, line.reserve) == ("Hex-bar deadlift", (1, 1), (5, 5))
    assert line.kg is None


def test_missing_equipment_is_worked_around():
    line = first(athlete(), "resisted_sprint", 3, kit=Kit(missing=("sled",)))
    bare = first(athlete(), "resisted_sprint", 3, kit=Kit(missing=("sled", "hill", "band")))

    assert (line.exercise, line.metres) == ("Uphill sprint", 20)
    assert "no sled" in line.note
    assert (bare.exercise, bare.seconds, bare.metres) == ("Wall drive", (5, 8), None)


def test_a_band_with_words_only_prints_them(own_ladders):
    who = athlete(age=16, restrictions=[{"tag": "knee"}])

    found = section(who, own_ladders["main_lift"], 1)

    assert (found.work, found.lines) == ("3-5 reps", ())
    assert any("stays below 90 %" in note for note in found.notes)
    assert any("restricted: knee" in note for note in found.notes)


def test_an_absent_athlete_gets_no_work():
    who = athlete(unavailable_from="2026-09-01", unavailable_to="2026-09-20")

    found = card(who, [ChosenBand(quality=LADDERS["sprint"], rung=0, dose=Dose.FULL)], WEEK)
    assert (found.sections, found.notes) == ((), ("not available this week",))


def test_a_dose_of_none_is_left_out():
    assert not card(
        athlete(), [ChosenBand(quality=LADDERS["sprint"], rung=0, dose=Dose.NONE)], WEEK
    ).sections


def test_a_note_after_a_break():
    week = WEEK.model_copy(update={"fixtures": ("Sat",), "days_off": 14})

    notes = card(athlete(group="non-playing"), [], week).notes
    assert any("14 days without training" in note for note in notes)


def test_ladders_of_three_bands_hold_what_the_user_wrote(own_ladders, own_work):
    def lines(key):
        return [first(athlete(), own_ladders[key], rung, library=own_work) for rung in range(3)]

    assert [line.metres for line in lines("own_sprint")] == [15, 25, 35]
    assert [line.metres for line in lines("sled")] == [10, 15, 20]
    assert [line.reps for line in lines("main_lift")] == [(6, 8), (3, 5), (1, 3)]
    assert [line.sets for line in lines("general")] == [4, 3, 2]
    # 40-50 and 20-30 % of 177 % of 80 kg, then 10 % of 80 kg.
    assert [line.kg for line in lines("sled")] == [(55, 70), (27.5, 40), (7.5, 7.5)]


@pytest.mark.parametrize("group", ["starters", "squad", "non-playing", "returning"])
def test_whoever_is_said_not_to_be_cleared_gets_no_work_in_any_group(group):
    choices = [ChosenBand(quality=quality, rung=2, dose=Dose.FULL) for quality in LADDERS.values()]

    found = card(athlete(group=group, cleared=False), choices, WEEK)

    assert found.sections == ()
    assert "no work" in found.notes[0]
