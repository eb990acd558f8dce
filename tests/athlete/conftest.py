"""A user's own ladders of three bands, general to specific, as a scenario would hold them."""

import pytest
from hypothesis import settings

from optimiser.athlete.library import own_library
from optimiser.domain.quality import Quality

# A busy machine must not fail a test.
settings.register_profile("no_clock", deadline=None)
settings.load_profile("no_clock")

DOSES = {
    "touch": {"minutes": 10, "rpe": 6, "gain": 0.6},
    "reduced": {"minutes": 20, "rpe": 6, "gain": 0.9},
    "full": {"minutes": 30, "rpe": 6, "gain": 1.0},
}
BANDS = {
    "own_sprint": ("field", {"A1": "15 m", "A2": "25 m", "A3": "35 m"}),
    "sled": ("field", {"B1": "Heavy", "B2": "Moderate", "B3": "Light"}),
    "main_lift": ("gym", {"C1": "6-8 reps", "C2": "3-5 reps", "C3": "1-3 reps"}),
    "general": ("gym", {"D1": "4 sets", "D2": "3 sets", "D3": "2 sets"}),
}
PRESCRIPTIONS = {
    "A1": {"exercise": "standing_sprint", "sets": 6, "metres": 15},
    "A2": {"exercise": "standing_sprint", "sets": 5, "metres": 25},
    "A3": {"exercise": "standing_sprint", "sets": 4, "metres": 35},
    "B1": {"exercise": "sled_sprint", "sets": 5, "metres": 10, "loss": "40-50"},
    "B2": {"exercise": "sled_sprint", "sets": 5, "metres": 15, "loss": "20-30"},
    "B3": {"exercise": "sled_sprint", "sets": 5, "metres": 20, "body_mass": 10},
    "C1": {"exercise": "squat", "sets": 3, "reps": "6-8"},
    "C2": {"exercise": "squat", "sets": 4, "reps": "3-5"},
    "C3": {"exercise": "squat", "sets": 5, "reps": "1-3"},
    "D1": [{"exercise": "split_squat", "sets": 4, "reps": 8}, {"exercise": "push_up", "reps": 8}],
    "D2": {"exercise": "split_squat", "sets": 3, "reps": 8},
    "D3": {"exercise": "split_squat", "sets": 2, "reps": 8},
}


@pytest.fixture
def own_work():
    """Return the library with the user's own work in it."""
    return own_library(PRESCRIPTIONS)


@pytest.fixture
def own_ladders():
    """Return the four ladders as qualities by key."""
    return {
        key: Quality(
            key=key,
            name=key.replace("_", " ").capitalize(),
            place=place,
            tau_fitness=30,
            tau_fatigue=8,
            doses=DOSES,
            bands=[{"code": code, "label": label, "gain": 1} for code, label in bands.items()],
        )
        for key, (place, bands) in BANDS.items()
    }
