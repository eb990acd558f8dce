"""The plan as a file: everything about it in numbers and words, and the way back to the choices."""

from itertools import pairwise, takewhile
from typing import Final, Literal

from pydantic import Field

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place, Quality, dose_of
from optimiser.domain.season import Phase, Season
from optimiser.domain.setup_error import SetupError
from optimiser.domain.strict import Strict

FORMAT: Final = "seasonwright.plan/1"

Status = Literal["proven", "within_gap", "stopped"]
DoseWord = Literal["none", "touch", "reduced", "full"]


class ScenarioPart(Strict):
    """The season a plan was made for: its name, its digest in hex, and whose plan it is.

    Parameters
    ----------
    group
        The group of the squad, if the plan is that of one and not of all.
    """

    name: str
    digest: str
    group: str = ""


class StagePart(Strict):
    """What one stage of the search reached, in plans made before a season was searched as one.

    Parameters
    ----------
    gap
        A share, 0.01 is 1 %.
    confirmed
        Whether another solver came to the same end; None if it was not asked.
    """

    name: str
    status: Status
    objective: int
    bound: float | None = None
    gap: float | None = None
    seconds: float = Field(default=0.0, ge=0)
    deterministic_time: float = Field(default=0.0, ge=0)
    confirmed: bool | None = None


class CostParts(Strict):
    """What a plan costs, part by part, in readiness points of a week without a match."""

    readiness: float = Field(ge=0)
    bands: float = Field(ge=0)
    amounts: float = Field(ge=0)
    steadiness: float = Field(ge=0)
    blocks: float = Field(ge=0)
    rules: float = Field(ge=0)


class SeasonPart(Strict):
    """How good a plan is among all that keep the rules.

    Parameters
    ----------
    cost, bound
        In readiness points; no plan that keeps the rules costs less than ``bound``. None where
        the search was ended before there was a bound.
    gap
        ``(cost - bound) / cost``, a share: 0.01 is 1 %.
    decided_by
        What ended the search: a proof, the gap asked for, its fixed effort, the clock or a key.
    changes
        What the search charged on top for each choice that differs from another plan's; ``bound``
        and ``gap`` speak of both together.
    confirmed
        Whether another solver came to the same end; None if it was not asked or did not end.
    """

    cost: float = Field(ge=0)
    bound: float | None = None
    gap: float | None = None
    status: Status
    decided_by: Literal["proof", "gap", "steps", "clock", "hand"]
    seconds: float = Field(default=0.0, ge=0)
    changes: float = Field(default=0.0, ge=0)
    confirmed: bool | None = None
    parts: CostParts


class MatchPart(Strict):
    """How well readiness meets its target at the fixtures, 0-100; None where there are none."""

    score: float | None = None
    at_high: float | None = None
    at_medium: float | None = None
    at_low: float | None = None


class ListedMatchPart(Strict):
    """One of several matches on a day, as it was listed; ``kickoff`` is "HH:MM"."""

    kickoff: str | None = None
    opponent: str = ""
    competition: str = ""
    venue: str = ""


class FixturePart(Strict):
    """One match of a week, or all matches of a day.

    Parameters
    ----------
    matches
        Of a day with several, each as it was listed.
    event
        First day of the event of several days it is part of.
    """

    date: CalendarDay
    priority: Priority
    opponent: str = ""
    competition: str = ""
    matches: tuple[ListedMatchPart, ...] = ()
    event: CalendarDay | None = None

    @property
    def called(self) -> str:
        """Return what people call it: the opponent, or the tournament that several matches are."""
        words = [match.competition.split() for match in self.matches]
        alike = [each[0] for each in takewhile(_alike, zip(*words, strict=False))] if words else []
        return " ".join(alike) or self.opponent or self.competition or "match"


def _alike(words: tuple[str, ...]) -> bool:
    return len(set(words)) == 1


class LoadPart(Strict):
    """A week's load in AU."""

    training: int
    practice: int
    matches: int
    total: int


class SessionsPart(Strict):
    """A week's sessions of this plan."""

    field: int = Field(ge=0, le=14)
    gym: int = Field(ge=0, le=14)


class SessionDayPart(Strict):
    """A session that groups of the squad share, or a practice of the team, on its day.

    Parameters
    ----------
    place
        Field or gym; practice where its days are not given.
    work
        Keys of the qualities that this plan's group does in it, in order.
    start_from, start_by
        Bounds of its start that a match sets for any of the groups, "HH:MM".
    """

    place: Place | Literal["practice"]
    date: CalendarDay
    work: tuple[str, ...] = ()
    start_from: str | None = Field(default=None, pattern=r"^\d{2}:\d{2}$")
    start_by: str | None = Field(default=None, pattern=r"^\d{2}:\d{2}$")


class QualityPart(Strict):
    """One quality in one week.

    Parameters
    ----------
    band
        Code of the band; None in a closed week.
    label
        The band in a few words.
    rung
        Counted from 1; None in a closed week.
    minutes
        Of work in the week; None in plans of older versions.
    readiness
        Points 0-100, after what matches cost.
    """

    band: str | None = None
    label: str = ""
    rung: int | None = Field(default=None, ge=1)
    dose: DoseWord = "none"
    minutes: int | None = Field(default=None, ge=0)
    readiness: float | None = None


class DonePart(Strict):
    """What was done in a week that is over; what was planned stands beside it.

    Parameters
    ----------
    recorded
        Whether anything of it is on record; if not, it is taken as planned.
    bands, doses
        By quality; a band is None in a closed week.
    planned_load
        With practice and matches, in AU, as it was planned.
    planned_readiness
        Points 0-100, by the plan alone.
    """

    recorded: bool
    bands: dict[str, str | None] = Field(default_factory=dict)
    doses: dict[str, DoseWord] = Field(default_factory=dict)
    sessions: SessionsPart
    planned_load: int = Field(ge=0)
    planned_readiness: float


class WeekPart(Strict):
    """One week; ``week``, ``block`` and ``block_week`` are counted from 1.

    Parameters
    ----------
    days
        Of its sessions, where the plan is that of a group; else they follow from the plan.
    retest
        Days on which to test again, one of them; empty in other weeks.
    done
        What was done, if it is over; its load and readiness are then the real ones.
    """

    week: int = Field(ge=1)
    monday: CalendarDay
    phase: Phase
    fixtures: tuple[FixturePart, ...] = ()
    block: int | None = Field(default=None, ge=1)
    block_week: int | None = Field(default=None, ge=1)
    deload: bool = False
    taper: bool = False
    target: float
    readiness: float
    load: LoadPart
    sessions: SessionsPart
    days: tuple[SessionDayPart, ...] = ()
    retest: tuple[CalendarDay, ...] = ()
    qualities: dict[str, QualityPart]
    done: DonePart | None = None


class BreachPart(Strict):
    """One breach; ``week`` is counted from 1."""

    rule: str
    week: int | None = None
    quality: str | None = None
    part: str = ""
    excess: int
    unit: str
    words: str


class WaiverPart(Strict):
    """What a rule does not ask, because the calendar has no room for it.

    Parameters
    ----------
    weeks
        From 1; empty where the season as a whole is meant.
    fixtures
        Match days without which it would be asked; empty where breaks or phases are why.
    """

    rule: str
    part: str = ""
    qualities: tuple[str, ...] = ()
    weeks: tuple[int, ...] = ()
    fixtures: tuple[CalendarDay, ...] = ()
    words: str


class ConcessionPart(Strict):
    """A rule that gives way, because what was asked for clashes; ``week`` is counted from 1.

    Parameters
    ----------
    by
        How many of ``unit`` it gives way.
    safety
        True if it keeps people safe.
    """

    rule: str
    week: int | None = None
    quality: str | None = None
    part: str = ""
    by: int
    unit: str
    safety: bool = False
    words: str


class HelpPart(Strict):
    """A change that would bring the worst match of a plan that is not good nearer its target.

    Parameters
    ----------
    rule, step
        The rule, and what of it is one step looser; without a step, the rule dropped.
    words
        The same as a coach says it; older files have none.
    safety
        True if the rule keeps people safe: what it costs is a reason, and no reason to loosen it.
    match
        The match that is not played, where that is the change.
    week, fixture, points
        The worst match, its week (from 1), and the planned readiness it gains at least.
    """

    rule: str = ""
    step: str = ""
    words: str = ""
    safety: bool = False
    match: CalendarDay | None = None
    week: int
    fixture: str
    points: float


class SteadyMatch(Strict):
    """A great match in its worst tenth of settings: mean readiness by this plan and the usual."""

    week: int
    fixture: str
    ready: float
    usual: float


class SteadyPart(Strict):
    """What a plan is worth that was made for the worst tenth of settings.

    Parameters
    ----------
    settings
        How many were drawn.
    cost, usual, bound
        Season cost with the great matches counted in the worst tenth: of this plan, of the usual
        one, and what no plan is below.
    """

    settings: int
    cost: float
    usual: float
    bound: float
    matches: tuple[SteadyMatch, ...] = ()


class PlanDocument(Strict):
    """A plan with all that is worked out from it.

    Parameters
    ----------
    versions
        What made it, by name.
    season
        What is proven of the whole season, if it was searched as one and not in stages.
    status
        That of ``season``, or of the stages. ``proven``: every stage is, no rule is broken and
        every objective was met again when it was worked out from the choices. ``within_gap``:
        every stage is within 1 % of its bound.
    helps
        What would help most, where the plan is not good.
    steady
        What it is worth where the response is not as thought, if it was made for that.
    today
        The day on which it was put in force, in a season in progress.
    """

    format: Literal["seasonwright.plan/1"] = FORMAT
    scenario: ScenarioPart
    seed: int = 0
    today: CalendarDay | None = None
    versions: dict[str, str] = Field(default_factory=dict)
    status: Status
    stages: tuple[StagePart, ...] = ()
    season: SeasonPart | None = None
    match: MatchPart
    weeks: tuple[WeekPart, ...] = Field(min_length=1)
    breaches: tuple[BreachPart, ...] = ()
    waivers: tuple[WaiverPart, ...] = ()
    concessions: tuple[ConcessionPart, ...] = ()
    helps: tuple[HelpPart, ...] = ()
    steady: SteadyPart | None = None


def to_plan(document: PlanDocument, season: Season) -> Plan:
    """Return the choices a document holds; what is worked out from them is passed over.

    Raises
    ------
    SetupError
        If its weeks, qualities or bands are not those of ``season``.
    """
    _check_weeks(document, season)
    cells = [[_cell(week, quality) for week in document.weeks] for quality in season.qualities]
    return Plan(
        starts=_starts(document),
        rungs=tuple(tuple(rung for rung, _ in row) for row in cells),
        doses=tuple(tuple(dose for _, dose in row) for row in cells),
        field=tuple(week.sessions.field for week in document.weeks),
        gym=tuple(week.sessions.gym for week in document.weeks),
    )


def _check_weeks(document: PlanDocument, season: Season) -> None:
    if len(document.weeks) != len(season.weeks):
        raise SetupError(
            "weeks",
            f"must be the {len(season.weeks)} weeks of the season",
            f"{len(document.weeks)}",
            "take the plan that was made for this scenario",
        )
    for here, week in zip(document.weeks, season.weeks, strict=True):
        where = f"weeks[{week.number}]"
        if (here.week, here.monday) != (week.number, week.monday):
            must = f"must be week {week.number}, Monday {week.monday}"
            got = f"week {here.week}, {here.monday}"
            raise SetupError(where, must, got, "put the weeks in order")
        if set(here.qualities) != set(season.keys):
            raise SetupError(
                f"{where}.qualities",
                f"must be {', '.join(season.keys)}",
                ", ".join(here.qualities) or "none",
                "name each quality of the scenario once",
            )


def _cell(week: WeekPart, quality: Quality) -> tuple[int | None, Dose]:
    part = week.qualities[quality.key]
    where = f"weeks[{week.week}].qualities.{quality.key}"
    if part.rung is not None and part.rung > len(quality.bands):
        must = f"rung must be 1 to {len(quality.bands)}"
        raise SetupError(where, must, str(part.rung), "correct it")
    codes = [band.code for band in quality.bands]
    if part.band is not None and part.band not in codes:
        raise SetupError(where, f"band must be one of {', '.join(codes)}", part.band, "correct it")
    by_band = None if part.band is None else codes.index(part.band)
    by_rung = None if part.rung is None else part.rung - 1
    if None not in (by_band, by_rung) and by_band != by_rung:
        got = f"band {part.band} and rung {part.rung}"
        raise SetupError(where, "band and rung must name the same", got, "correct one of them")
    return by_band if by_rung is None else by_rung, dose_of(part.dose)


def _starts(document: PlanDocument) -> tuple[int, ...]:
    """Return the weeks (from 0) whose block is not the one of the week before."""
    blocks = [None, *(week.block for week in document.weeks)]
    return tuple(
        week
        for week, (before, here) in enumerate(pairwise(blocks))
        if here is not None and here != before
    )
