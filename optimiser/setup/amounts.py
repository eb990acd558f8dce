"""Amounts: how much of each quality is wanted in a week, by phase and distance to the next peak.

Far from a peak general and maximal strength lead, near it sprint, fast plyometrics and power. The
lighter weeks of blocks and tapers come on top, by rules. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Place, Quality
from optimiser.domain.season import Phase, Season

#: Weeks before a peak in which its run-in asks for other amounts, and weeks after it that rest.
RUN_IN, AFTER = 4, 2
#: Weeks in season without a match that get a small pre-season of their own (common practice, no
#: source).
GAP = 4


@dataclass(frozen=True)
class Curve:
    """Wanted dose of one quality, 0 none to 3 full, at eight places of the year.

    Speed and power keep their work up to the week before a peak, strength goes down sooner.
    """

    rebuild: float
    early: float
    late: float
    usual: float
    run_in: float
    last: float
    peak: float
    after: float


CURVES = {
    "sprint": Curve(1.0, 2.0, 2.5, 1.25, 1.75, 1.6, 1.0, 1.0),
    "resisted_sprint": Curve(1.5, 2.5, 2.0, 1.25, 1.25, 1.0, 0.75, 1.0),
    "plyometrics": Curve(1.0, 1.5, 2.5, 1.25, 1.75, 1.6, 1.0, 1.0),
    "power": Curve(1.0, 2.0, 2.5, 1.25, 1.75, 1.4, 1.0, 1.25),
    "max_strength": Curve(2.0, 3.0, 3.0, 1.5, 1.25, 1.0, 0.75, 2.0),
    "general_strength": Curve(3.0, 3.0, 3.0, 1.25, 1.0, 0.4, 0.6, 2.5),
}
#: For qualities of a club's own, by place.
OTHERS = {"field": CURVES["sprint"], "gym": CURVES["power"]}


def wanted(season: Season) -> list[list[float]]:
    """Return the wanted dose, one row a quality and one column a week, 0 none to 3 full."""
    peaks = season.weeks_with(Priority.HIGH)
    return [
        [_wanted(season, _curve(quality), peaks, week.index) for week in season.weeks]
        for quality in season.qualities
    ]


def _curve(quality: Quality) -> Curve:
    return CURVES.get(quality.key, OTHERS[quality.place])


def _wanted(season: Season, curve: Curve, peaks: list[int], week: int) -> float:
    ahead = min((peak - week for peak in peaks if peak >= week), default=RUN_IN + 1)
    if ahead == 0:
        return curve.peak
    if ahead == 1:
        return curve.last
    if ahead <= RUN_IN:
        return curve.run_in
    if any(0 < week - peak <= AFTER for peak in peaks):
        return curve.after
    return _by_phase(season, curve, week)


def _by_phase(season: Season, curve: Curve, week: int) -> float:
    if (span := build_up(season, week)) is not None:
        share = (week - span.start) / max(1, len(span) - 1)
        return curve.early + share * (curve.late - curve.early)
    return curve.usual if season.weeks[week].phase is Phase.IN else curve.rebuild


def build_up(season: Season, week: int) -> range | None:
    """Return the pre-season of a week, or the long gap between matches that stands in for one."""
    if season.weeks[week].phase is Phase.PRE:
        return _span(week, [each.phase is Phase.PRE for each in season.weeks])
    quiet = [each.phase is Phase.IN and not (each.fixtures or each.closed) for each in season.weeks]
    span = _span(week, quiet) if quiet[week] else range(0)
    return span if len(span) >= GAP else None


def _span(week: int, alike: Sequence[bool]) -> range:
    first = last = week
    while first and alike[first - 1]:
        first -= 1
    while last + 1 < len(alike) and alike[last + 1]:
        last += 1
    return range(first, last + 1)


#: In the order in which sessions are wanted.
PLACES: tuple[Place, ...] = ("field", "gym")
#: Field and gym sessions wanted in a week, by phase (common practice; Weldon et al. 2022, Biol
#: Sport 39(3):715-26: three to four in the gym out of season, two to three in season).
SESSIONS = {Phase.OFF: (1, 2), Phase.PRE: (2, 3), Phase.IN: (1, 2)}
IN_GAP = (2, 2)
#: And at most, by matches in the week.
CROWDED = ((2, 3), (2, 3), (1, 1), (0, 0))


def sessions_wanted(season: Season, week: int) -> tuple[int, int]:
    """Return the field and gym sessions wanted in a week; fewer do not carry what is wanted."""
    here = season.weeks[week]
    gap = here.phase is Phase.IN and build_up(season, week) is not None
    wanted_here = IN_GAP if gap else SESSIONS[here.phase]
    most = CROWDED[min(len(here.fixtures), len(CROWDED) - 1)]
    field, gym = (min(pair) for pair in zip(wanted_here, most, strict=True))
    if here.session_limit is not None:
        gym = min(gym, here.session_limit)
        field = min(field, here.session_limit - gym)
    places = {quality.place for quality in season.qualities}
    return field if "field" in places else 0, gym if "gym" in places else 0
