"""What the page asks of a season: at once where it can be, else in the searching process."""

from typing import Any

from cli.days import asked_of, week_maker
from cli.files.own_work import read_kit, read_library
from cli.render.clean_text import clean
from cli.render.week_days import empty_day
from cli.render.why import alternatives_text
from cli.render.why_week import week_why
from cli.report.week_work import week_work
from cli.serve.keeping import NotNowError
from cli.serve.lines import page_lines
from cli.serve.questions import CostJob, PriceJob, Ways, WaysJob
from cli.serve.session import Session
from cli.serve.side import SeasonSide
from cli.serve.who_is_there import who_is_there
from optimiser.change.decided import Decided
from optimiser.change.trade import WayOn
from optimiser.days.week_plan import DayPlan, WeekPlan
from optimiser.domain.plan import Plan
from optimiser.domain.quality import dose_of
from optimiser.domain.week_number import index_of
from optimiser.explain.why.alternatives import alternatives
from optimiser.explain.why.asked import Asked
from optimiser.progress.carry_on import with_planned_past

NO_PLAN = "There is no plan for these changes yet."
NO_WORK = "The week is closed: nothing is planned in it."


def shown_side(session: Session) -> tuple[SeasonSide, Plan]:
    """Return the side whose plan is shown, and the plan.

    Raises
    ------
    NotNowError
        If there is none.
    """
    side = session.here
    if side.plan is None:
        raise NotNowError(NO_PLAN)
    return side, side.plan


def explained_cell(session: Session, week: int, quality: str) -> dict[str, Any]:
    """Return what the work of one place is, and why it is so; ``week`` from 1."""
    side, plan = shown_side(session)
    season, index = side.season, _quality(side, quality)
    document = side.document
    assert document is not None
    part = document.weeks[_week(side, week)]
    if part.qualities[quality].rung is None:
        return {"work": [NO_WORK], "why": []}
    loaded = side.loaded
    work = week_work(season, part, read_library(loaded), read_kit(loaded), only=(quality,))
    rates = side.loaded.scenario.rates
    found = alternatives(season, plan, side.rules, index, index_of(week), rates)
    why = alternatives_text(season, plan, index, index_of(week), found)
    band = season.qualities[index].bands[(part.qualities[quality].rung or 1) - 1]
    return {
        "work": [clean(line) for line in work] or ["Nothing of it this week."],
        "full": clean(band.work),
        "why": [clean(line) for line in page_lines(why) if "--band" not in line],
    }


def week(session: Session, number: int) -> dict[str, Any]:
    """Return a week (from 1) on its days, what its work is, and why it is as it is."""
    side, plan = shown_side(session)
    index = _week(side, number)
    there = who_is_there(side, side.season.weeks[index])
    if side.season.weeks[index].closed:
        return {"days": [], "work": [NO_WORK], "why": [], "faults": [], "squad": there}
    made = _days(side, plan, index)
    document = side.document
    assert document is not None
    loaded = side.loaded
    shown = document.weeks[index]
    work = week_work(side.season, shown, read_library(loaded), read_kit(loaded))
    why = week_why(side.season, plan, side.rules, index, made, "")
    return {
        "days": [_day(day) for day in made.days],
        "work": [clean(line) for line in work],
        "why": [clean(line) for line in page_lines(why)],
        "faults": [clean(fault) for fault in made.faults],
        "notes": [clean(note) for note in made.notes],
        "squad": there,
        "held": bool(asked_of(side.loaded).get(index)),
    }


def days(session: Session, first: int, last: int) -> dict[str, Any]:
    """Return the days of several weeks (from 1), by week."""
    side, plan = shown_side(session)
    weeks = range(max(1, first), min(last, len(side.season.weeks)) + 1)
    found = {}
    for number in weeks:
        if not side.season.weeks[index_of(number)].closed:
            made = _days(side, plan, index_of(number))
            found[str(number)] = [_day(day) for day in made.days]
    return found


def ask_cost(session: Session, week: int, quality: str, dose: str) -> None:
    """Begin on what another dose in one place would mean."""
    side, plan = shown_side(session)
    index = _week(side, week)
    _quality(side, quality)
    asked = Asked(week=index, quality=quality, dose=dose_of(dose))
    job = CostJob(
        f"cell {week} {quality}",
        side.season,
        side.rules,
        plan,
        asked,
        session.settings,
        side.decided,
    )
    session.ask(job)


def ask_price(session: Session, rule: str) -> None:
    """Begin on what a rule costs."""
    side, plan = shown_side(session)
    if rule not in {each.name for each in side.rules}:
        raise NotNowError("That rule is not used, so it costs nothing.")
    settings, decided = session.settings, side.decided
    session.ask(PriceJob(f"rule {rule}", side.season, side.rules, plan, rule, settings, decided))


def ask_ways(session: Session) -> None:
    """Begin on the plans from the least change to the best."""
    side, base = session.here, session.base
    if base.plan is None:
        raise NotNowError(NO_PLAN)
    if side.there is None:
        decided, old = Decided(base.plan, 0), base.plan
    else:
        lived = side.there.lived
        decided = Decided(lived.plan, lived.weeks)
        old = with_planned_past(lived.plan, side.there.planned, lived.weeks)
    session.ask(WaysJob(side.season, side.rules, old, decided, session.settings))


def take_way(session: Session, letter: str) -> None:
    """Make one of the plans that were offered the one on the page."""
    ways = session.answer
    if not isinstance(ways, Ways):
        raise NotNowError("Those plans are no longer there; ask again.")
    at = ord(letter[:1].upper() or "?") - ord("A")
    if not 0 <= at < len(ways.trade.choices):
        raise NotNowError("That plan is no longer there.")
    chosen: WayOn = ways.trade.choices[at]
    verdict = ways.trade.best.verdict if chosen.kind == "best" else None
    session.take_plan(session.here.planned(chosen.plan, verdict, provisional=False))


def _days(side: SeasonSide, plan: Plan, index: int) -> WeekPlan:
    if index not in side.days:
        side.days[index] = week_maker(side.loaded, side.rules).week(plan, index, ())
    return side.days[index]


def _day(day: DayPlan) -> dict[str, Any]:
    return {
        "date": day.date.isoformat(),
        "label": day.label,
        "kind": day.kind.value,
        "empty": "" if day.sessions or day.practice or day.match else empty_day(day),
        "load": day.load,
        "sessions": [
            {
                "place": each.place,
                "start": each.start,
                "end": each.end,
                "minutes": each.minutes,
                "load": each.load,
                "work": [clean(work.words) for work in each.work],
                "codes": [clean(work.code) for work in each.work],
            }
            for each in day.sessions
        ],
        "practice": None
        if day.practice is None
        else {
            "start": day.practice.start, "end": day.practice.end,
            "minutes": day.practice.minutes, "load": day.practice.load,
        },
        "match": None if day.match is None else clean(day.match.opponent or day.match.competition),
    }  # fmt: skip


def _week(side: SeasonSide, number: int) -> int:
    if not 1 <= number <= len(side.season.weeks):
        raise NotNowError(f"There is no week {number}.")
    return index_of(number)


def _quality(side: SeasonSide, key: str) -> int:
    if key not in side.season.keys:
        raise NotNowError("There is no such quality.")
    return side.season.keys.index(key)
