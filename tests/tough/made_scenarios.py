"""Scenario files as Hypothesis makes them: most can be used, and some have one odd value."""

import datetime as dt
import typing

import tomlkit
from hypothesis import strategies as st

from constraints import CATALOGUE
from optimiser.setup.qualities import default_qualities

FIRST = dt.date(2026, 8, 31)
KEYS = [quality.key for quality in default_qualities()]
NAMES = st.text(max_size=30) | st.sampled_from(["Ferrow Hill", "../../etc", "=1+1", "\u202e\x07"])


#: What no place, or not every place, of a scenario can hold.
ODD = [
    0, -1, 261, 10**9, 10**30, 0.5, float("nan"), float("inf"), "", "none", "high", True,
    [], {}, [1], {"x": 1}, dt.date(2026, 8, 30), dt.date(9999, 12, 31), dt.date(1, 1, 1),
    dt.time(12),
]  # fmt: skip


def within(weeks):
    """Return days of the season."""
    return st.integers(0, 7 * weeks - 1).map(lambda day: FIRST + dt.timedelta(days=day))


def fixtures(weeks):
    row = st.fixed_dictionaries(
        {"date": within(weeks)},
        optional={
            "opponent": NAMES,
            "priority": st.sampled_from(["high", "medium", "low"]),
            "venue": st.sampled_from(["home", "away", "neutral", ""]),
            "minutes": st.floats(1, 240),
            "travel_hours": st.floats(0, 48),
            "kickoff": st.times().map(lambda time: time.replace(microsecond=0)),
        },
    )
    return st.lists(row, min_size=1, max_size=2 * weeks, unique_by=lambda row: row["date"])


@st.composite
def breaks(draw, weeks):
    days = draw(st.lists(st.tuples(within(weeks), st.integers(0, 20)), max_size=3))
    kinds = st.sampled_from(["rest", "exams", "camp", "bye"])
    return [
        {"kind": draw(kinds), "first": first, "last": first + dt.timedelta(days=length)}
        for first, length in days
    ]


def rules():
    """Return tables of rules whose numbers are near their defaults, small, or out of range."""
    tables = {name: _parameters(kind) for name, kind in CATALOGUE.items()}
    return st.fixed_dictionaries({}, optional=tables)


def _parameters(kind):
    values = {
        name: _near(field.default)
        for name, field in kind.model_fields.items()
        if isinstance(field.default, int | str) or typing.get_origin(field.annotation) is tuple
    }
    return st.fixed_dictionaries({}, optional={"use": st.booleans(), **values})


def _near(default):
    if isinstance(default, bool):
        return st.booleans()
    if isinstance(default, int):
        return st.integers(min(default, max(0, default - 2)), default + 3)
    if isinstance(default, tuple):
        return st.lists(st.integers(0, 8), min_size=len(default), max_size=len(default)).map(sorted)
    return st.just(default)


def practice():
    week = st.fixed_dictionaries(
        {},
        optional={
            "sessions": st.integers(0, 14),
            "minutes": st.integers(0, 300),
            "rpe": st.integers(0, 10),
        },
    )
    phases = dict.fromkeys(("off_season", "pre_season", "in_season"), week)
    return st.fixed_dictionaries({}, optional=phases)


def qualities():
    changed = st.fixed_dictionaries(
        {},
        optional={
            "weight": st.integers(1, 5),
            "tau_fitness": st.floats(20, 90),
            "tau_fatigue": st.floats(2, 15),
            "start": st.integers(0, 100),
            "lead": st.integers(0, 8),
            "match_gain": st.floats(0, 1),
        },
    )
    return st.dictionaries(st.sampled_from(KEYS), changed, max_size=3)


def targets():
    level = st.integers(0, 100)
    names = ("off_season", "pre_season_from", "with_fixture", "without_fixture", "let_down_unless")
    return st.fixed_dictionaries(
        {},
        optional={
            **dict.fromkeys(names, level),
            "let_down": st.lists(level, max_size=12),
            "high": st.fixed_dictionaries(
                {"peak": level, "step": st.integers(0, 50), "weeks": st.integers(0, 20)}
            ),
        },
    )


@st.composite
def scenarios(draw, longest=40, odd=False):
    """Return the text of a scenario; if ``odd``, one value in it is another than it should be."""
    weeks = draw(st.integers(1, longest))
    table = {"name": draw(NAMES.filter(bool)), "first_monday": FIRST, "weeks": weeks}
    parts = {
        "breaks": breaks(weeks),
        "practice": practice(),
        "qualities": qualities(),
        "targets": targets(),
        "rules": rules(),
    }
    table |= draw(st.fixed_dictionaries({"fixtures": fixtures(weeks)}, optional=parts))
    if odd:
        holder, key = draw(st.sampled_from(list(_places(table))))
        holder[key] = draw(st.sampled_from(ODD))
    return tomlkit.dumps(table)


def _places(value):
    """Yield every table or list within ``value`` with each of its keys."""
    for key in value if isinstance(value, dict) else range(len(value)):
        yield value, key
        if isinstance(value[key], dict | list):
            yield from _places(value[key])
