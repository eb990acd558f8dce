"""Jumps: height, reactive strength and how many contacts a session may hold."""

from typing import Literal

Level = Literal["beginner", "intermediate", "advanced"]
Cycle = Literal["none", "fast", "slow"]
Part = Literal["off-season", "pre-season"]

GRAVITY = 9.81

#: A ground contact shorter than this many seconds is a fast stretch-shortening cycle.
FAST_CONTACT = 0.250

#: Heaviest athlete, in kg, for whom depth jumps are not limited; and the limit in metres above.
DROP_LIMIT = (100.0, 0.46)

_SESSION: dict[Level, tuple[int, int]] = {
    "beginner": (80, 100),
    "intermediate": (100, 120),
    "advanced": (120, 140),
}
_PART: dict[Part, dict[Level, tuple[int, int]]] = {
    "off-season": {
        "beginner": (60, 100),
        "intermediate": (100, 150),
        "advanced": (120, 200),
    },
    "pre-season": {
        "beginner": (100, 250),
        "intermediate": (150, 300),
        "advanced": (150, 450),
    },
}


def jump_height(flight_s: float) -> float:
    """Return the height of a jump in metres from its flight time in seconds.

    Holds if take-off and landing posture agree; bent legs at landing add height that is not
    there.

    Raises
    ------
    ValueError
        If ``flight_s`` is not above 0.

    References
    ----------
    Height is ``g t^2 / 8``: free fall, half the flight up and half down.
    """
    _check_time(flight_s)
    return GRAVITY * flight_s**2 / 8


def reactive_strength(height_m: float, contact_s: float) -> float:
    """Return the reactive strength index in m/s: height over contact time.

    Show both beside it: it can stay flat while height and contact change together.

    Raises
    ------
    ValueError
        If either is not above 0.

    References
    ----------
    Young (1995), New Studies in Athletics 10(4): 89-96 (from memory).
    """
    _check_time(height_m)
    _check_time(contact_s)
    return height_m / contact_s


def flight_ratio(flight_s: float, contact_s: float) -> float:
    """Return flight over contact time, unitless; a second form of the index.

    Raises
    ------
    ValueError
        If either is not above 0.

    References
    ----------
    Both forms are in use; they are not interchangeable (common practice, no source).
    """
    _check_time(flight_s)
    _check_time(contact_s)
    return flight_s / contact_s


def stretch_cycle(contact_s: float) -> Cycle:
    """Return ``fast`` for a ground contact below 0.250 s, else ``slow``.

    Raises
    ------
    ValueError
        If ``contact_s`` is not above 0.

    References
    ----------
    Schmidtbleicher (1992), in Komi (ed.), Strength and Power in Sport (from memory).
    """
    _check_time(contact_s)
    return "fast" if contact_s < FAST_CONTACT else "slow"


def session_contacts(level: Level) -> tuple[int, int]:
    """Return the usual fewest and most ground contacts of one session.

    References
    ----------
    Potach and Chu, in NSCA Essentials of Strength Training and Conditioning.
    """
    return _SESSION[level]


def part_contacts(part: Part, level: Level) -> tuple[int, int]:
    """Return the fewest and most contacts of a session by part of the year.

    In season the sport decides; keep to the off-season figure or less.

    References
    ----------
    Chu, Jumping into Plyometrics, pages 29-31.
    """
    return _PART[part][level]


def _check_time(value: float) -> None:
    if not 0 < value < float("inf"):
        raise ValueError(f"times and heights must be above 0 (got {value:g})")
