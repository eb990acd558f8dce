"""Jump numbers against published cut-offs and worked values."""

import pytest

from optimiser.athlete.jumps import (
    DROP_LIMIT,
    flight_ratio,
    jump_height,
    part_contacts,
    reactive_strength,
    session_contacts,
    stretch_cycle,
)


@pytest.mark.parametrize(("contact", "cycle"), [(0.249, "fast"), (0.250, "slow")])
def test_fast_and_slow_ground_contact(contact, cycle):
    # Schmidtbleicher (1992), in Strength and Power in Sport (from memory).
    assert stretch_cycle(contact) == cycle


def test_contacts_of_a_session_by_level():
    # Potach and Chu, NSCA Essentials of Strength Training and Conditioning.
    found = [session_contacts(level) for level in ("beginner", "intermediate", "advanced")]

    assert found == [(80, 100), (100, 120), (120, 140)]


@pytest.mark.parametrize(
    ("level", "off", "pre"),
    [
        ("beginner", (60, 100), (100, 250)),
        ("intermediate", (100, 150), (150, 300)),
        ("advanced", (120, 200), (150, 450)),
    ],
)
def test_contacts_by_part_of_the_year(level, off, pre):
    # Chu, Jumping into Plyometrics, pages 29-31.
    assert part_contacts("off-season", level) == off
    assert part_contacts("pre-season", level) == pre


@pytest.mark.parametrize(
    ("flight", "contact", "height", "index"),
    [(0.50, 0.20, 0.30656, 1.5328), (0.55, 0.18, 0.37094, 2.0608)],
)
def test_height_and_index_from_times(flight, contact, height, index):
    # Height g t^2 / 8, index height over contact: method table in PMC9750644.
    assert jump_height(flight) == pytest.approx(height, abs=1e-5)
    assert reactive_strength(jump_height(flight), contact) == pytest.approx(index, abs=1e-4)


def test_index_from_a_measured_height_and_as_a_ratio():
    assert reactive_strength(0.35, 0.21) == pytest.approx(1.6667, abs=1e-4)
    assert flight_ratio(0.50, 0.20) == pytest.approx(2.5)


def test_heavy_athletes_drop_from_less():
    # NSCA position on depth jumps (from memory): above 100 kg at most about 0.46 m.
    assert DROP_LIMIT == (100, 0.46)
