"""A session card: one athlete's week, as plain data."""

import datetime as dt
from typing import Literal

from pydantic import Field

from optimiser.athlete.care import CARE, PAIN
from optimiser.athlete.hold import Restart
from optimiser.athlete.plates import PLATES
from optimiser.athlete.squad import Group
from optimiser.athlete.standing import StandingPart
from optimiser.athlete.top_up import Match, TopUp, matches_around
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place, Quality
from optimiser.domain.season import Phase, Season
from optimiser.domain.strict import Strict

Pair = tuple[float, float]


class Kit(Strict):
    """What there is to load with.

    Parameters
    ----------
    bar_kg, plates
        Mass of the empty bar, and the plates on hand for each side.
    dumbbell_step, heaviest_dumbbell
        In kg.
    machine_step
        Of a weight stack, in kg.
    sled_step
        Smallest change of a sled's load, in kg.
    missing
        Equipment of the exercise library that is not there.
    """

    bar_kg: float = Field(default=20.0, gt=0, le=50)
    plates: tuple[float, ...] = PLATES
    dumbbell_step: float = Field(default=2.5, gt=0, le=20)
    heaviest_dumbbell: float = Field(default=50.0, gt=0, le=150)
    machine_step: float = Field(default=5.0, gt=0, le=50)
    sled_step: float = Field(default=2.5, gt=0, le=50)
    missing: tuple[str, ...] = ()


class ChosenBand(Strict):
    """What the plan asks of one quality this week; ``rung`` counts from 0."""

    quality: Quality
    rung: int = Field(ge=0)
    dose: Dose


class CardPiece(Strict):
    """One quality's work in a session; ``part`` of ``parts`` where it is shared out."""

    quality: str
    part: int = 1
    parts: int = 1
    minutes: int = Field(default=0, ge=0)

    @property
    def words(self) -> str:
        """Return its name, and which part it is."""
        return f"{self.quality} ({self.part} of {self.parts})" if self.parts > 1 else self.quality


class SessionDay(Strict):
    """A session of the week and its day.

    Parameters
    ----------
    label
        The day by the matches around it, such as MD-2.
    pieces, work
        What it holds, in order, and the names of that.
    standing
        Its warm-up and standing work; ``warm_up`` and ``finish`` are their minutes.
    minutes
        Of all of it, as this athlete does it, which may be less than the squad's.
    start_from, start_by
        Bounds of its start that a match sets, "HH:MM".
    start
        "HH:MM"; None where it has none.
    away
        True if the athlete is not there on the day.
    """

    place: Place
    date: dt.date
    label: str = ""
    pieces: tuple[CardPiece, ...] = ()
    work: tuple[str, ...] = ()
    standing: tuple[StandingPart, ...] = ()
    warm_up: int = Field(default=0, ge=0)
    finish: int = Field(default=0, ge=0)
    minutes: int = Field(default=0, ge=0)
    start_from: str | None = None
    start_by: str | None = None
    start: str | None = None
    away: bool = False


class WeekInfo(Strict):
    """The week a card is for.

    Parameters
    ----------
    number
        From 1.
    field, gym
        Sessions planned.
    fixtures
        What is played, in words.
    days_off
        Days without training just before, in whole closed weeks.
    matches
        Of the club around the week, with the minutes of one athlete.
    retest
        Days on which to test again, one of them; empty in other weeks.
    block_week
        Of its block, from 1; None if that is not known.
    back
        Whole weeks since squad or group began again after long time off; None if that is over.
    restart
        How work begins again after it.
    sessions
        The planned sessions with their days, where those are known.
    """

    number: int = Field(ge=1)
    monday: dt.date
    phase: Phase
    field: int = Field(default=0, ge=0)
    gym: int = Field(default=0, ge=0)
    fixtures: tuple[str, ...] = ()
    days_off: int = Field(default=0, ge=0)
    matches: tuple[Match, ...] = ()
    retest: tuple[dt.date, ...] = ()
    block_week: int | None = Field(default=None, ge=1)
    back: int | None = None
    restart: Restart = Restart()
    sessions: tuple[SessionDay, ...] = ()

    @property
    def sunday(self) -> dt.date:
        """Return the last day."""
        return self.monday + dt.timedelta(days=6)


class Rising(Strict):
    """A rising set before heavy ones: per cent of the 1RM, and kg where the 1RM is known."""

    percent: float
    reps: int
    kg: float | None = None


class Line(Strict):
    """One exercise of a card; what does not apply is None.

    Parameters
    ----------
    sets
        After the dose is taken into account.
    reps, seconds
        Of one set, from and to.
    each_side
        True if ``reps`` or ``seconds`` are for each side.
    metres, lead_in
        Of one run, and run before them.
    contacts
        Ground contacts in all sets together.
    rest_s
        Between sets, from and to, in s.
    kg
        Load from and to, bar or sled included, as it can be loaded; 0 is body mass alone. Of one
        dumbbell, for dumbbells.
    percent
        Of the 1RM, from and to.
    reserve
        Repetitions left, from and to.
    how
        Where the load comes from, or how hard to go without one.
    target
        Time or speed to expect.
    key, planned
        Of the exercise in the library, and of the one it stands for.
    cue
        One line of coaching.
    rising
        Sets before the first.
    step
        Of the warm-up or of the standing work, what it is for.
    """

    exercise: str
    sets: int = Field(ge=1)
    reps: Pair | None = None
    seconds: Pair | None = None
    each_side: bool = False
    metres: float | None = None
    lead_in: float | None = None
    contacts: int = 0
    rest_s: Pair | None = None
    kg: Pair | None = None
    percent: Pair | None = None
    reserve: Pair | None = None
    how: str = ""
    target: str = ""
    note: str = ""
    key: str = ""
    planned: str = ""
    cue: str = ""
    rising: tuple[Rising, ...] = ()
    step: str = ""


class Section(Strict):
    """The work for one quality.

    Parameters
    ----------
    planned
        Code of the band the plan asks for; differs from ``code`` if the athlete got another.
    work
        The band's own words, where there are no lines.
    share
        Of the plan's time, 0 to 1.
    """

    quality: str
    place: Place
    planned: str
    code: str
    label: str
    dose: str
    work: str = ""
    share: float = 1.0
    lines: tuple[Line, ...] = ()
    notes: tuple[str, ...] = ()


class Block(Strict):
    """A part of a session.

    Parameters
    ----------
    name
        A quality, or what else it is: warm-up, finish.
    step
        What it is for, or the band of a quality.
    minutes
        As planned.
    """

    name: str
    step: str = ""
    minutes: int
    lines: tuple[Line, ...] = ()
    work: str = ""
    notes: tuple[str, ...] = ()


class SessionCard(Strict):
    """One session of one athlete, from warm-up to finish.

    Parameters
    ----------
    minutes
        Sum of its blocks.
    own_time
        True if its start is the athlete's own: the squad trains while they are at school.
    """

    date: dt.date
    place: Place
    label: str = ""
    start_from: str | None = None
    start_by: str | None = None
    start: str | None = None
    own_time: bool = False
    minutes: int
    away: bool = False
    blocks: tuple[Block, ...] = ()
    pain: str = PAIN


class Card(Strict):
    """One athlete's week: by quality, and by session where the days are known."""

    athlete: str
    group: Group
    body_mass_kg: float
    week: WeekInfo
    sections: tuple[Section, ...] = ()
    sessions: tuple[SessionCard, ...] = ()
    top_ups: tuple[TopUp, ...] = ()
    notes: tuple[str, ...] = ()


class CardSet(Strict):
    """Cards, and what is said once with all of them."""

    format: Literal["seasonwright.cards/1"] = "seasonwright.cards/1"
    cards: tuple[Card, ...]
    care: tuple[str, ...] = CARE


def week_info(season: Season, plan: Plan, index: int, restart: Restart | None = None) -> WeekInfo:
    """Return what a card says about week ``index`` (from 0)."""
    week, used = season.weeks[index], restart or Restart()
    return WeekInfo(
        number=week.number,
        monday=week.monday,
        phase=week.phase,
        field=plan.field[index],
        gym=plan.gym[index],
        fixtures=tuple(f"{found.date:%a %d %b} {found.name}" for found in week.fixtures),
        days_off=_days_off(season, index),
        matches=tuple(matches_around((each.date for each in season.fixtures), week.monday, {})),
        block_week=next((index - b.start + 1 for b in plan.blocks() if index in b), None),
        back=_weeks_back(season, index, used),
        restart=used,
    )


def _days_off(season: Season, index: int) -> int:
    closed = 0
    while closed < index and season.weeks[index - closed - 1].closed:
        closed += 1
    return 7 * closed


def _weeks_back(season: Season, index: int, restart: Restart) -> int | None:
    """Return the weeks since training began again; None if the year opened with it."""
    start = index
    while start and not season.weeks[start - 1].closed:
        start -= 1
    return index - start if _days_off(season, start) >= restart.days_off else None


def week_choices(season: Season, plan: Plan, index: int) -> list[ChosenBand]:
    """Return what the plan asks for in week ``index`` (from 0), leaving out what is not done."""
    return [
        ChosenBand(quality=quality, rung=rungs[index], dose=doses[index])
        for quality, rungs, doses in zip(season.qualities, plan.rungs, plan.doses, strict=True)
        if rungs[index] is not None and doses[index] is not Dose.NONE
    ]
