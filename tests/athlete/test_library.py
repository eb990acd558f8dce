import pytest
from prilepin import check
from pydantic import ValidationError

from optimiser.athlete.exercise import Item
from optimiser.athlete.library import default_library, own_library
from optimiser.athlete.strength import reserve_at
from optimiser.domain.quality import Quality
from optimiser.setup.default_ladders import default_tables
from optimiser.setup.qualities import default_qualities

LIBRARY = default_library()
# Potach and Chu, NSCA Essentials: 80 to 100 contacts a session for beginners.
BEGINNERS = 100
LADDERS = {quality.key: quality for quality in default_qualities()}
RUNGS = [(key, rung) for key, quality in LADDERS.items() for rung in range(len(quality.bands))]


def work(key):
    quality = LADDERS[key]
    return [LIBRARY.items(quality, rung) for rung in range(len(quality.bands))]


@pytest.mark.parametrize(("key", "rung"), RUNGS)
def test_every_default_band_has_work(key, rung):
    assert LIBRARY.items(LADDERS[key], rung)


def test_contacts_are_those_the_ladder_counts():
    ladder = LADDERS["plyometrics"]
    counted = [
        sum(item.sets * item.reps[1] for item in items if LIBRARY.exercises[item.exercise].jump)
        for items in work("plyometrics")
    ]

    assert counted == [band.amounts["contacts"] for band in ladder.bands]
    assert max(counted) <= BEGINNERS


def test_metres_near_top_speed_are_those_the_ladder_counts():
    ladder = LADDERS["sprint"]
    counted = [band.amounts.get("near_top_speed_m", 0) for band in ladder.bands]

    # by the curve a 20 m run passes 90 % of top speed after 14 m, a run of 35 m or a flying one
    # with its build-up much further from its end
    for items, found in zip(work("sprint")[2:], counted[2:], strict=True):
        whole = sum(item.sets * (item.metres + (item.lead_in or 0)) for item in items)
        past = sum(item.sets * (item.metres + (item.lead_in or 0) - 14.2) for item in items)
        assert found == pytest.approx(past, abs=1)
        assert found < whole
    assert counted[:2] == [0, 0]
    assert counted == sorted(counted)


def test_heavy_sets_leave_the_reserve_the_table_says_and_fit_prilepin():
    for items in work("max_strength"):
        for item in items:
            percent, reps = item.percent[1], int(item.reps[1])
            found = check(percent, item.sets, reps)

            assert item.reserve[0] == pytest.approx(reserve_at(percent, reps))
            assert (found.reps, found.total) == ("fits", "fits")


def test_general_strength_runs_from_many_repetitions_to_few():
    totals = [sum(item.sets * item.reps[1] for item in items) for items in work("general_strength")]

    assert totals == sorted(totals, reverse=True)


def test_sprint_and_sled_distances_lie_in_the_published_rows():
    # Haugen et al. (2019), Sports Medicine - Open 5: 44, Table 2: accelerations 10-50 m, 2-7 min
    # rest, 100-300 m; flying 10-30 m, 4-15 min, 50-150 m; resisted 10-30 m, 3-6 min, 50-200 m.
    # The build-ups of the first band lie outside it.
    for items in work("sprint")[1:4]:
        assert all(10 <= i.metres <= 50 and i.rest[0] >= 120 and i.rest[1] <= 420 for i in items)
        assert 100 <= sum(i.sets * i.metres for i in items) <= 300
    (flying,) = work("sprint")[4]
    assert 10 <= flying.metres <= 30
    assert 240 <= flying.rest[0] <= flying.rest[1] <= 900
    assert 50 <= flying.sets * flying.metres <= 150
    for items in work("resisted_sprint"):
        sled = [i for i in items if i.loss]
        assert all(10 <= i.metres <= 30 and 180 <= i.rest[0] <= i.rest[1] <= 360 for i in sled)
        assert 50 <= sum(i.sets * i.metres for i in sled) <= 200


def test_every_stand_in_helps_with_a_restriction_or_with_missing_equipment():
    for exercise in LIBRARY.exercises.values():
        for other in (LIBRARY.exercises[key] for key in exercise.instead):
            eases = set(exercise.avoid) - set(other.avoid)
            spares = set(exercise.equipment) - set(other.equipment)
            assert eases or spares, (exercise.name, other.name)


def test_a_changed_band_of_a_known_code_does_not_get_the_usual_work():
    table = default_tables()["sprint"]
    table["bands"] = table["bands"][:2]
    table["bands"][0] |= {"label": "Hills", "work": "6 x 15 m uphill"}
    quality = Quality(key="sprint", **table)

    assert LIBRARY.items(quality, 0) == ()
    assert LIBRARY.items(quality, 1)


def test_own_work_beats_the_usual():
    library = own_library({"M1": {"exercise": "deadlift", "sets": 2, "reps": "6-8"}})

    assert library.items(LADDERS["max_strength"], 0) == (
        Item(exercise="deadlift", sets=2, reps=(6, 8)),
    )
    assert library.items(LADDERS["max_strength"], 1) == LIBRARY.items(LADDERS["max_strength"], 1)


def test_own_exercises_can_be_used():
    library = own_library(
        {"A": {"exercise": "hill_run", "metres": 20}}, {"hill_run": {"name": "Hill run"}}
    )

    assert library.exercises["hill_run"].name == "Hill run"


@pytest.mark.parametrize(
    ("item", "said"),
    [
        ({"exercise": "skwat", "reps": 5}, "did you mean squat?"),
        ({"exercise": "squat"}, "reps, seconds or metres"),
        ({"exercise": "squat", "reps": "8-6"}, "must rise"),
        ({"exercise": "squat", "reps": "many"}, "number"),
        ({"exercise": "squat", "reps": 5, "percent": 120}, "0 to 110"),
        ({"exercise": "squat", "reps": 5, "rep": 5}, "Extra"),
        ({"exercise": "squat", "reps": True}, "tuple"),
        ([], "at least 1"),
    ],
)
def test_own_work_that_cannot_be_used_is_refused(item, said):
    with pytest.raises(ValidationError, match=said):
        own_library({"A": item})
