"""Random seasons and plans, and the check that a rule's rows and its audit agree.

A rule says the same thing twice: as rows for the solver and as an audit of a finished plan. Here
a plan is pinned on the board, the solver is asked what the rule's rows cost there, and the answer
is set beside the audit's, place by place.
"""

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from itertools import zip_longest
from random import Random

from rows import pin_blocks

from optimiser.board.board import LONGEST_SESSION, MOST_SESSIONS
from optimiser.board.model import Row
from optimiser.board.outline import LONGEST_BLOCK, open_stretches
from optimiser.domain.fixture import Break, Fixture, Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Band, Dose, Doses, DoseSpec, Place, Quality
from optimiser.domain.season import Phase, Season, Week
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.solve import make_board
from optimiser.rule import Rule
from optimiser.setup.qualities import default_qualities

#: Excess by place: week, quality, part and unit.
Excess = dict[tuple[int | None, str | None, str, str], int]

FIRST_MONDAY = dt.date(2025, 7, 7)
AMOUNTS = ("near_top_speed_m", "contacts", "hard_sets")
LADDERS: tuple[tuple[str, Place], ...] = (
    ("sprint", "field"),
    ("power", "gym"),
    ("plyometrics", "field"),
    ("general_strength", "gym"),
)
EFFORT = Effort(deterministic=20.0, seconds=60.0)


# --- seasons ------------------------------------------------------------------------------


def make_quality(
    key: str,
    place: Place,
    *,
    bands: int = 4,
    minutes: tuple[int, int, int] = (10, 20, 30),
    rpe: float = 6.0,
    lower_body: bool = True,
    amounts: Sequence[dict[str, float]] = (),
    own: Sequence[tuple[int, int, int] | None] = (),
) -> Quality:
    """Return a small ladder; ``minutes`` are those of touch, reduced and full.

    Parameters
    ----------
    amounts
        What each band adds to a week's totals at full dose; left out, nothing.
    own
        Minutes of touch, reduced and full at each band; left out, ``minutes``.
    """
    specs = [
        DoseSpec(minutes=each, rpe=rpe, gain=gain)
        for each, gain in zip(minutes, (0.5, 0.8, 1.0), strict=True)
    ]
    ladder = [
        Band(code=f"B{rung + 1}", label=f"rung {rung + 1}", gain=1.0, amounts=here, minutes=mine)
        for rung, (here, mine) in enumerate(zip_longest(list(amounts) or [{}] * bands, own))
    ]
    return Quality(
        key=key,
        name=key.replace("_", " "),
        place=place,
        lower_body=lower_body,
        tau_fitness=40,
        tau_fatigue=8,
        doses=Doses(touch=specs[0], reduced=specs[1], full=specs[2]),
        bands=tuple(ladder),
    )


def make_season(
    weeks: int,
    *,
    fixtures: Sequence[Fixture] = (),
    qualities: Sequence[Quality] = (),
    closed: Sequence[int] = (),
    limits: dict[int, int] | None = None,
    breaks: Sequence[Break] = (),
    phases: Sequence[Phase] = (),
    practice: Sequence[int] = (),
) -> Season:
    """Return a season of ``weeks`` weeks (indices from 0), built without a scenario.

    Parameters
    ----------
    qualities
        Left out, a sprint and a power ladder of four bands.
    closed
        Weeks without training.
    limits
        Most sessions of a week with a break.
    breaks
        Each is told to the weeks it touches; it neither closes nor limits them.
    phases, practice
        One entry a week; left out, in season and no practice.
    """
    ladders = tuple(qualities) or (make_quality("sprint", "field"), make_quality("power", "gym"))
    return Season(
        name="Test season",
        weeks=tuple(
            Week(
                index=index,
                monday=FIRST_MONDAY + dt.timedelta(weeks=index),
                phase=phases[index] if phases else Phase.IN,
                fixtures=tuple(f for f in fixtures if _week_of(f.date) == index),
                breaks=tuple(b for b in breaks if _week_of(b.first) <= index <= _week_of(b.last)),
                closed=index in closed,
                session_limit=(limits or {}).get(index),
                target=70.0,
                practice_load=practice[index] if practice else 0,
                match_load=480 * sum(_week_of(f.date) == index for f in fixtures),
            )
            for index in range(weeks)
        ),
        qualities=ladders,
        emphasis=tuple((50.0,) * weeks for _ in ladders),
    )


def season_of_matches(*days: int, weeks: int = 4) -> Season:
    """Return a season of the default ladders with matches on ``days``, counted from 0."""
    fixtures = [Fixture(date=FIRST_MONDAY + dt.timedelta(days=day)) for day in days]
    return make_season(weeks, fixtures=fixtures, qualities=default_qualities())


def match_on(
    week: int,
    day: int = 5,
    priority: Priority = Priority.LOW,
    kickoff: dt.time | None = None,
) -> Fixture:
    """Return a fixture in ``week`` (from 0) on ``day`` (0 Monday to 6 Sunday)."""
    date = FIRST_MONDAY + dt.timedelta(days=7 * week + day)
    return Fixture(date=date, priority=priority, kickoff=kickoff)


def rest_from(week: int, day: int, days: int) -> Break:
    """Return a break of ``days`` days without training."""
    first = FIRST_MONDAY + dt.timedelta(days=7 * week + day)
    return Break(kind="rest", first=first, last=first + dt.timedelta(days=days - 1))


def _week_of(date: dt.date) -> int:
    return (date - FIRST_MONDAY).days // 7


def random_season(rng: Random, *, long: bool = False) -> Season:
    """Return a small season with crowded matches, closed weeks, limits and several phases.

    Parameters
    ----------
    long
        True for 45 weeks or more and two high fixtures far apart.
    """
    weeks = rng.randint(45, 50) if long else min(rng.randint(6, 20), rng.randint(6, 20))
    closed = _random_closed(rng, weeks)
    practices = rng.choice(((0,), (500,), (0, 400, 900, 1300)))
    return make_season(
        weeks,
        fixtures=_random_fixtures(rng, weeks, long=long),
        qualities=[_random_quality(rng, *each) for each in LADDERS[: rng.randint(2, 4)]],
        closed=closed,
        limits={week: rng.randint(0, 4) for week in range(weeks) if rng.random() < 0.15},
        breaks=[
            rest_from(week, rng.randrange(7), rng.randint(1, 5))
            for week in range(weeks)
            if rng.random() < 0.15
        ],
        phases=_random_phases(rng, weeks),
        practice=[rng.choice(practices) for _ in range(weeks)],
    )


def _random_closed(rng: Random, weeks: int) -> list[int]:
    closed: set[int] = set()
    for _ in range(rng.choice((0, 1, 1, 2, 3))):
        start, length = rng.randrange(weeks), rng.randint(1, 3)
        closed |= set(range(start, min(weeks, start + length)))
    return sorted(closed)[: weeks - 1]


def _random_phases(rng: Random, weeks: int) -> list[Phase]:
    phases: list[Phase] = []
    while len(phases) < weeks:
        phases += [rng.choice(list(Phase))] * rng.randint(2, 8)
    return phases[:weeks]


def _random_fixtures(rng: Random, weeks: int, *, long: bool) -> list[Fixture]:
    """Let matches crowd, mix or come week by week."""
    days: dict[int, Priority] = {}
    day = rng.randint(0, 21)
    pace = rng.choice(((1, 2, 3, 4, 5, 7, 14), (3, 4, 7, 9, 30), (7, 7, 14)))
    while day < 7 * weeks:
        days[day] = rng.choice([Priority.LOW] * 7 + [Priority.MEDIUM] * 2 + [Priority.HIGH])
        day += rng.choice(pace)
    if long:
        days = {on: rank for on, rank in days.items() if rank is not Priority.HIGH}
        days[7 * rng.randint(8, 14) + 5] = days[7 * (weeks - 1) + 5] = Priority.HIGH
    starts = rng.choice(([None], [dt.time(15)], [None, dt.time(11, 30), dt.time(20, 45)]))
    return [
        match_on(on // 7, on % 7, rank, rng.choice(starts)) for on, rank in sorted(days.items())
    ]


def _random_quality(rng: Random, key: str, place: Place) -> Quality:
    touch, more, most = rng.randint(5, 15), rng.randint(1, 20), rng.randint(1, 25)
    amounts = [
        {name: rng.randint(0, 240) / 2 for name in AMOUNTS if rng.random() < 0.5}
        for _ in range(rng.randint(2, 5))
    ]
    return make_quality(
        key,
        place,
        minutes=(touch, touch + more, touch + more + most),
        rpe=rng.choice((5.0, 6.5, 7.3)),
        lower_body=rng.random() < 0.8,
        amounts=amounts,
        own=_own_minutes(rng, len(amounts)),
    )


def _own_minutes(rng: Random, bands: int) -> list[tuple[int, int, int] | None]:
    """Return minutes of some bands that differ from those of the doses, as real work does."""
    if rng.random() < 0.5:
        return []
    return [
        tuple(sorted(5 * rng.randint(1, 9) for _ in range(3))) if rng.random() < 0.8 else None
        for _ in range(bands)
    ]


# --- plans --------------------------------------------------------------------------------


def make_plan(
    season: Season,
    starts: Sequence[int],
    rungs: Sequence[Sequence[int]],
    doses: Sequence[Sequence[int]],
) -> Plan:
    """Return a plan from rungs (from 0) by block and doses 0-3 by week; one row a quality.

    Every week has one field and one gym session if there is work for it; closed weeks nothing.
    """
    weeks = len(season.weeks)
    shut = [week.closed for week in season.weeks]
    block = [sum(start <= week for start in starts) - 1 for week in range(weeks)]
    work = [
        [Dose.NONE if shut[week] else Dose(row[week]) for week in range(weeks)] for row in doses
    ]
    held = {
        place: [
            int(
                any(
                    row[week]
                    for row, q in zip(work, season.qualities, strict=True)
                    if q.place == place
                )
            )
            for week in range(weeks)
        ]
        for place in ("field", "gym")
    }
    return Plan(
        starts=tuple(starts),
        rungs=tuple(
            tuple(None if shut[week] else row[block[week]] for week in range(weeks))
            for row in rungs
        ),
        doses=tuple(map(tuple, work)),
        field=tuple(held["field"]),
        gym=tuple(held["gym"]),
    )


def standing_plan(season: Season, starts: Sequence[int], rungs: Sequence[int]) -> Plan:
    """Return a plan of touches: the first of two qualities on rungs by block, the other lowest."""
    touches = [1] * len(season.weeks)
    return make_plan(season, starts, [rungs, [0] * len(starts)], [touches, touches])


def working_plan(season: Season, doses: Sequence[int], starts: Sequence[int] = (0,)) -> Plan:
    """Return a plan on the lowest rungs in which only the first of two qualities is trained."""
    rungs = [0] * len(starts)
    return make_plan(season, starts, [rungs, rungs], [doses, [0] * len(season.weeks)])


def random_plan(rng: Random, season: Season) -> Plan:
    """Return any plan the board can hold: calm or wild, light or heavy, mindful of no rule."""
    lengths = rng.choice(((1, LONGEST_BLOCK), (1, 3), (3, 6), (4, 4)))
    blocks = _random_blocks(rng, season, lengths)
    step = rng.choice((0, 1, 1, 2, 11))
    change = rng.choice((0.0, 0.1, 0.5, 1.0))
    pool = rng.choice((list(Dose), list(Dose), [Dose.NONE, Dose.TOUCH], [Dose.TOUCH, Dose.FULL]))
    doses = [_random_doses(rng, season, change, pool) for _ in season.qualities]
    rungs = tuple(
        _random_rungs(rng, season, blocks, len(quality.bands), step) for quality in season.qualities
    )
    return Plan(
        starts=tuple(block.start for block in blocks),
        rungs=rungs,
        doses=tuple(doses),
        field=_random_sessions(rng, season, "field", rungs, doses),
        gym=_random_sessions(rng, season, "gym", rungs, doses),
    )


def _random_blocks(rng: Random, season: Season, lengths: tuple[int, int]) -> list[range]:
    blocks = []
    for stretch in open_stretches(season):
        start = stretch.start
        while start < stretch.stop:
            stop = min(stretch.stop, start + rng.randint(*lengths))
            blocks.append(range(start, stop))
            start = stop
    return blocks


def _random_rungs(
    rng: Random, season: Season, blocks: Sequence[range], bands: int, step: int
) -> tuple[int | None, ...]:
    row: list[int | None] = [None] * len(season.weeks)
    rung = rng.randrange(bands)
    for block in blocks:
        for week in block:
            row[week] = rung
        rung = min(bands - 1, max(0, rung + rng.randint(-step, step)))
    return tuple(row)


def _random_doses(
    rng: Random, season: Season, change: float, pool: Sequence[Dose]
) -> tuple[Dose, ...]:
    row, dose = [], rng.choice(pool)
    for week in season.weeks:
        if rng.random() < change:
            dose = rng.choice(pool)
        row.append(Dose.NONE if week.closed else dose)
    return tuple(row)


def _random_sessions(
    rng: Random,
    season: Season,
    place: Place,
    rungs: Sequence[Sequence[int | None]],
    doses: Sequence[Sequence[Dose]],
) -> tuple[int, ...]:
    """Hold enough sessions for the work of each week, and no more than its pieces fill."""
    counts = []
    for week in range(len(season.weeks)):
        work = [
            (quality.minutes(row[week], bands[week]), 1 if row[week] is Dose.TOUCH else 2)
            for quality, bands, row in zip(season.qualities, rungs, doses, strict=True)
            if quality.place == place and row[week] is not Dose.NONE
        ]
        least = -(-sum(minutes for minutes, _ in work) // LONGEST_SESSION)
        most = min(MOST_SESSIONS, sum(pieces for _, pieces in work))
        counts.append(rng.choice((least, rng.randint(least, most))))
    return tuple(counts)


# --- agreement ----------------------------------------------------------------------------


def solver_excess(rule: Rule, plan: Plan, season: Season) -> Excess:
    """Return what the rule's rows ask to be paid for ``plan``, by place, at a price of 1.

    Raises
    ------
    AssertionError
        If the board cannot hold the plan at any price.
    """
    board = make_board(season, [rule.model_copy(update={"price": 1})])
    assert pin_blocks(board, plan), f"{rule.name}: a block is missing although it has a price"
    board.pin_doses(plan)
    found = minimise(board.model, EFFORT)
    assert found.status == "optimal", f"{rule.name}: pinned and priced, yet {found.status}"
    excess: Counter[tuple[int | None, str | None, str, str]] = Counter()
    for row in board.model.rows:
        if row.tag is not None:
            place = (row.tag.week, row.tag.quality, row.tag.part, row.tag.unit)
            excess[place] += _missed(row, found.values)
    assert excess.total() == found.objective, f"{rule.name}: slack is larger than its rows need"
    return {place: size for place, size in excess.items() if size}


def _missed(row: Row, values: Sequence[int]) -> int:
    """Return by how many units of excess a row is missed."""
    if row.when is not None and not values[row.when]:
        return 0
    amount = sum(factor * values[var] for var, factor in row.terms.items())
    over = amount - row.high if row.high is not None else (row.low or 0) - amount
    return max(0, -(-over // row.unit))


def audit_excess(rule: Rule, plan: Plan, season: Season) -> Excess:
    """Return what the rule's audit finds in ``plan``, by place."""
    excess: Counter[tuple[int | None, str | None, str, str]] = Counter()
    for breach in rule.audit(plan, season):
        excess[breach.week, breach.quality, breach.part, breach.unit] += breach.excess
    return dict(excess)


def solver_price(rule: Rule, plan: Plan, season: Season) -> int:
    """Return the least a plan costs on the board if one unit of the rule's excess costs 1."""
    return sum(solver_excess(rule, plan, season).values())


def audit_price(rule: Rule, plan: Plan, season: Season) -> int:
    """Return the excess of all breaches the rule's audit finds."""
    return sum(breach.excess for breach in rule.audit(plan, season))


def can_hold(rules: Sequence[Rule], plan: Plan, season: Season) -> bool:
    """Tell whether the board takes ``plan`` with ``rules`` as they are, hard or priced."""
    board = make_board(season, rules)
    if not pin_blocks(board, plan):
        return False
    board.pin_doses(plan)
    return minimise(board.model, EFFORT).status == "optimal"


def differences(rule: Rule, plan: Plan, season: Season) -> list[str]:
    """Return every place in which rows and audit ask different prices, in words."""
    rows, audit = solver_excess(rule, plan, season), audit_excess(rule, plan, season)
    return [
        f"{rule.name} at {place}: rows {rows.get(place, 0)}, audit {audit.get(place, 0)}"
        for place in sorted({*rows, *audit}, key=str)
        if rows.get(place, 0) != audit.get(place, 0)
    ]


def assert_agrees(rule: Rule, plan: Plan, season: Season) -> None:
    """Check that rows and audit agree on ``plan``: price and place, and whether it may stand.

    Raises
    ------
    AssertionError
        With every difference in words.
    """
    found = differences(rule, plan, season)
    assert not found, "\n".join(found)
    hard = rule.model_copy(update={"price": None})
    clean = not rule.audit(plan, season)
    assert can_hold([hard], plan, season) == clean, (
        f"{rule.name}: the audit {'passes' if clean else 'rejects'} a plan, the hard rows do not"
    )
