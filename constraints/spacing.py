"""Spacing: every week leaves days on which its sessions may stand."""

import datetime as dt
from collections.abc import Iterable, Mapping
from functools import lru_cache
from itertools import combinations
from types import MappingProxyType
from typing import Any, ClassVar, NamedTuple, Self

from constraints.timetabled import TimetabledWeek
from optimiser.board.board import Board
from optimiser.board.model import total
from optimiser.days.room import Room, season_rooms
from optimiser.days.spacing_settings import SCHOOL, YOUNG_DAYS, DaySettings
from optimiser.domain.breach import Breach
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place, Quality
from optimiser.domain.season import Season, Week
from optimiser.domain.wording import counted
from optimiser.review.score import training_minutes
from optimiser.rule import Rule

PLACES: tuple[Place, ...] = ("field", "gym")
#: Matches farther from a Monday mean nothing to its week.
REACH = dt.timedelta(days=21)
#: Further off than any rule looks, in minutes.
NEVER = 10**6
NO_HARD = "{week:has} no day for hard leg work: {quality} at touch at most"
PRIMERS_ONLY = "{week:holds} primers only: {quality} at touch at most"


class Around(NamedTuple):
    """A week, the next one, and the matches near them."""

    weeks: tuple[Week, ...]
    matches: tuple[Fixture, ...]
    rates: tuple[tuple[Place, float], ...]


class WeekNeeds(NamedTuple):
    """What an audited week has days for: each kind of session, both, AU, and which work."""

    field: int
    gym: int
    both: int
    load: int
    alone: bool
    usable: bool
    calm: bool
    legs: bool


class Spacing(Rule, DaySettings):
    """Promise no week that has no legal days.

    A week may have as many field and as many gym sessions as it has days far enough apart for
    hard leg work (for any session, where no day is fit for hard leg work). Without such a day the
    legs get touches only. A week without any open day holds primers, one of each place; where one
    day is all there is, they share it.
    """

    name: ClassVar[str] = "spacing"
    asks: ClassVar[str] = "hours and days between sessions and matches"
    title: ClassVar[str] = "Days and hours"
    unit: ClassVar[str] = "sessions"
    labels: ClassVar[dict[str, str]] = {
        "hours_since": "Hours from a match to hard leg work",
        "hours_until": "Hours from hard leg work to kick-off",
        "hard_hours": "Hours from one day of hard leg work to the next",
        "recovery_days": "Days after a match without a session",
        "primer_days": "Days before a match with a primer at most",
        "primer_minutes": "Longest primer, minutes",
        "jump_days": "Days from one day with jumps to the next",
        "session_days": "Days from one session day to the next",
        "speed_days": "Days from hard leg work to top speed",
        "rest_days": "Weekdays without a session",
        "doubles": "Days a week with both a field and a gym session",
        "same_day_hours": "Hours between two sessions of a day",
        "earliest": "Sessions start from",
        "latest": "Sessions start until",
        "match_minutes": "Minutes from kick-off to the end",
        "closes": "The last session ends by",
        "usual": "Sessions are best near",
        "field_at": "Every field session starts at",
        "gym_at": "Every gym session starts at",
        "school": "No session in school hours",
        "day_minutes": "Most minutes of a day, practice and own work",
        "day_load": "Most load of a day, AU",
        "load_before_1": "Most load the day before a match, AU",
        "load_before_2": "Most load two days before a match, AU",
        "travel_day_hours": "Hours of travel that take the day before",
        "room_minutes": "Minutes a day must have room for to count",
        "room_work": "Minutes of own work in them",
    }
    safety: ClassVar[bool] = True
    for_under_18: ClassVar[Mapping[str, Any]] = MappingProxyType(
        {"school": SCHOOL, "session_days": YOUNG_DAYS}
    )
    eases: ClassVar[dict[str, str]] = {
        "field": "allow {higher} instead of {limit} field sessions by days in {week}",
        "gym": "allow {higher} instead of {limit} gym sessions by days in {week}",
        "sessions": "allow {higher} instead of {limit} sessions by days in {week}",
        "load": "allow {more} more by days in {week}",
        "hard": "allow {quality} above a touch in {week}, without a day for hard leg work",
        "primer": "allow {quality} above a touch in {week}, with days for primers only",
        "field_primer": "let the field primer of {week} last {more} longer",
        "gym_primer": "let the gym primer of {week} last {more} longer",
        "one_primer": "let the primers of {week} last {more} longer",
    }
    sources: ClassVar[str] = (
        "Silva et al. 2018, Sports Med 48:539-83, and Cross et al. 2019, EJSS 19(10):1287-96: 48 h "
        "after a match; Haugen et al. 2019, Sports Med Open 5:44: 48 h between hard sprint "
        "sessions; jumps not on consecutive days: NSCA guidelines; primers: Harrison et al. 2019, "
        "Sports Med 49:1499-514; Robineau et al. 2016, JSCR 30(3):672-83: 6 h between sessions; "
        "rest day and primer minutes: engineering choice"
    )

    def rooms(self, season: Season) -> list[Room]:
        """Return what every week can hold."""
        return season_rooms(season, self)

    def post(self, board: Board) -> None:
        """Bound the sessions of every week by its room, and doses for which it has no day."""
        rooms = self.rooms(board.season)
        self.post_rooms(board, {week: rooms[week] for week in board.open_weeks()})

    def post_rooms(self, board: Board, rooms: Mapping[int, Room]) -> None:
        """Hold some open weeks (from 0) to these rooms."""
        for week, room in rooms.items():
            if not room.hard:
                self._post_doses(board, week, room)
            for place in PLACES:
                each = room.field if place == "field" else room.gym
                form = f"{{week:has}} days for {{limit:{place} session}}"
                tag = self.tag(form, week, part=place, limit=each)
                most = each + self.free(week, part=place)
                board.model.at_most(board.sessions(place, week), most, tag)
                if room.primer:
                    self._post_primer(board, week, place)
            if room.alone:
                self._post_one_primer(board, week)
            form = "{week:has} days for {limit:session}"
            tag = self.tag(form, week, part="sessions", limit=room.both, subject="sessions")
            most = room.both + self.free(week, part="sessions")
            board.model.at_most(board.all_sessions(week), most, tag)
            self._post_load(board, week, room)

    def _post_load(self, board: Board, week: int, room: Room) -> None:
        if not room.both or _largest(board.season) <= room.load:
            return
        form = "the days of {week} hold at most {limit} AU of own work"
        tag = self.tag(form, week, part="load", unit="AU", limit=room.load)
        most = room.load + self.free(week, part="load")
        board.model.at_most(board.load(week), most, tag)

    def _post_doses(self, board: Board, week: int, room: Room) -> None:
        for index, quality in enumerate(board.season.qualities):
            part = "hard" if quality.lower_body else "primer"
            barred = quality.lower_body or room.primer
            if barred and not self.free(week, quality.key, part):
                form = NO_HARD if quality.lower_body else PRIMERS_ONLY
                tag = self.tag(form, week, quality, part, unit="doses")
                board.model.at_most(board.at_least(index, week, Dose.REDUCED), 0, tag)

    def _post_primer(self, board: Board, week: int, place: Place) -> None:
        here = [i for i, q in enumerate(board.season.qualities) if q.place == place]
        part = f"{place}_primer"
        form = f"the {place} primer of {{week}} lasts at most {{limit}} min"
        tag = self.tag(form, week, part=part, unit="minutes", limit=self.primer_minutes)
        work = total(board.minutes_of(index, week) for index in here)
        most = self.primer_minutes + self.free(week, part=part)
        board.model.at_most(work, most, tag)

    def _post_one_primer(self, board: Board, week: int) -> None:
        tag = self.tag(
            "the primers of {week} share a day, {limit} min at most",
            week,
            part="one_primer",
            unit="minutes",
            limit=self.primer_minutes,
            subject="minutes",
        )
        most = self.primer_minutes + self.free(week, part="one_primer")
        board.model.at_most(board.minutes(week), most, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Try every choice of days of every week."""
        rates = _rates(season)
        return [
            breach
            for week in season.weeks
            if not week.closed
            for breach in self._week(plan, season, week.index, self.held(season, week.index, rates))
        ]

    def held(
        self, season: Season, week: int, rates: tuple[tuple[Place, float], ...] = ()
    ) -> WeekNeeds:
        """Return what one week (from 0) has days for, from every choice of them."""
        weeks = season.weeks[week : week + 2]
        near = [
            match
            for here in season.weeks[max(0, week - 4) : week + 5]
            for match in here.fixtures
            if abs(match.date - weeks[0].monday) <= REACH
        ]
        return _held(self, Around(weeks, tuple(near), rates or _rates(season)))

    def _week(self, plan: Plan, season: Season, week: int, held: WeekNeeds) -> list[Breach]:
        found = [*self._counts(plan, week, held), *self._loads(plan, season, week, held)]
        if not held.legs:
            found += self._doses(plan, season, week, primer=held.usable and not held.calm)
        if held.usable and not held.calm:
            found += self._primers(plan, season, week)
            if held.alone:
                found += self._one_primer(plan, season, week)
        return found

    def look(self, around: Around) -> WeekNeeds:
        """Try every choice of days of the first week of ``around``."""
        dates = [around.weeks[0].monday + dt.timedelta(days=step) for step in range(7)]
        usable = [date for date in dates if self._usable(around, date)]
        calm = [date for date in usable if not self._eve(around, date)]
        legs = [date for date in calm if self._fresh(around, date)]
        day = TimetabledWeek(self, around, legs=set(legs))
        if calm:
            found = max(
                (day.held(chosen) for chosen in self._sets(legs or calm)),
                # a session of each place first: most weeks need some strength and some speed
                key=lambda held: (
                    min(held[0], held[1], held[2] - 1) >= 1,
                    held[2],
                    held[0] + held[1],
                    held[3],
                ),
            )
        else:
            found = day.primers(usable)
        return WeekNeeds(*found, bool(usable), bool(calm), bool(legs))

    def _sets(self, dates: list[dt.date]) -> Iterable[tuple[dt.date, ...]]:
        """Yield every choice of days on which no two sessions can disturb each other."""
        days = max(self.jump_days, self.speed_days, self.session_days)
        least = max(24 * days, self.hard_hours)
        for size in range(len(dates) + 1):
            for chosen in combinations(dates, size):
                pairs = combinations(chosen, 2)
                if all(24 * (later - earlier).days >= least for earlier, later in pairs):
                    yield chosen

    def _usable(self, around: Around, date: dt.date) -> bool:
        """Tell whether any session may stand on a day, the next Monday's work considered."""
        if not self._allowed(around, date):
            return False
        sunday = date + dt.timedelta(days=6 - date.weekday())
        days = max(self.jump_days, self.speed_days, self.session_days)
        ahead = -(-max(24 * days, self.hard_hours) // 24)
        near = [date + dt.timedelta(days=step) for step in range(1, ahead)]
        return not any(day > sunday and self._allowed(around, day) for day in near)

    def _allowed(self, around: Around, date: dt.date) -> bool:
        weeks = [week for week in around.weeks if 0 <= (date - week.monday).days < 7]
        if not weeks or weeks[0].closed:
            return False
        off = any(b.kind == "rest" and b.first <= date <= b.last for b in weeks[0].breaks)
        resting = f"{date:%A}".lower() in {day.value for day in self.rest_days}
        sore = any(0 <= (date - match.date).days <= self.recovery_days for match in around.matches)
        playing = any(match.date == date for match in around.matches)
        away = any(
            match.date - date == dt.timedelta(days=1)
            and match.travel_hours >= self.travel_day_hours
            for match in around.matches
        )
        return not (off or resting or sore or playing or away)

    def _eve(self, around: Around, date: dt.date) -> bool:
        return any(0 < (m.date - date).days <= self.primer_days for m in around.matches)

    def _fresh(self, around: Around, date: dt.date) -> bool:
        """Tell whether some start on ``date`` is far enough from every match."""
        opens = self.opens.hour * 60 + self.opens.minute
        shuts = self.shuts.hour * 60 + self.shuts.minute
        starts = {opens, shuts}
        for match in around.matches:
            starts |= {start for start in self._limits(date, match) if opens <= start <= shuts}
        return any(
            all(self.clear(date, start, match) for match in around.matches) for start in starts
        )

    def _limits(self, date: dt.date, match: Fixture) -> tuple[int, int]:
        """Return the minutes of ``date`` at which a match begins to leave room and ceases to."""
        if match.kickoff is None:
            return (-NEVER, NEVER)
        at = 1440 * (match.date - date).days + match.kickoff.hour * 60 + match.kickoff.minute
        return (at + self.match_minutes + 60 * self.hours_since, at - 60 * self.hours_until)

    def clear(self, date: dt.date, start: int, match: Fixture) -> bool:
        """Tell whether hard leg work may start then as far as one match goes."""
        days = (match.date - date).days
        if match.kickoff is None:
            return 24 * days >= self.hours_until if days > 0 else -24 * days >= self.hours_since
        after, before = self._limits(date, match)
        return start <= before if days > 0 else start >= after

    def _loads(self, plan: Plan, season: Season, week: int, held: WeekNeeds) -> list[Breach]:
        own = sum(
            quality.load(doses[week], rungs[week])
            for quality, doses, rungs in zip(season.qualities, plan.doses, plan.rungs, strict=True)
        )
        form, most = "{week:has} {own} AU of own work and days for {most}", held.load
        over = own - most if held.both else 0
        return self.breaches(over, form, week, part="load", unit="AU", own=own, most=most)

    def _counts(self, plan: Plan, week: int, held: WeekNeeds) -> list[Breach]:
        rows = [
            ("field", "field session", plan.field[week], held.field),
            ("gym", "gym session", plan.gym[week], held.gym),
            ("sessions", "session", plan.field[week] + plan.gym[week], held.both),
        ]
        form = "{week:has} {have:{what}} and days for {most}"
        return [
            breach
            for part, what, have, most in rows
            for breach in self.breaches(
                have - most, form, week, part=part, have=have, what=what, most=most
            )
        ]

    def _doses(self, plan: Plan, season: Season, week: int, *, primer: bool) -> list[Breach]:
        form = "{quality:is} {dose} in {week}, with no day for more than a touch"
        found: list[Breach] = []
        for quality, row in zip(season.qualities, plan.doses, strict=True):
            dose, part = row[week], "hard" if quality.lower_body else "primer"
            if dose > Dose.TOUCH and (quality.lower_body or primer):
                found += self.breaches(1, form, week, quality, part, unit="doses", dose=dose.word)
        return found

    def _primers(self, plan: Plan, season: Season, week: int) -> list[Breach]:
        found: list[Breach] = []
        for place in PLACES:
            minutes = sum(
                quality.minutes(doses[week], rungs[week])
                for quality, doses, rungs in zip(
                    season.qualities, plan.doses, plan.rungs, strict=True
                )
                if quality.place == place
            )
            part, over = f"{place}_primer", minutes - self.primer_minutes
            form = f"{{week:has}} room for primers only and {{minutes}} min of {place} work"
            found += self.breaches(over, form, week, part=part, unit="minutes", minutes=minutes)
        return found

    def _one_primer(self, plan: Plan, season: Season, week: int) -> list[Breach]:
        minutes = training_minutes(season, plan, week)
        form = "{week:has} one day for primers and {minutes} min of work"
        over = minutes - self.primer_minutes
        return self.breaches(over, form, week, part="one_primer", unit="minutes", minutes=minutes)

    def loosened(self) -> Self | None:
        """Return the rule with one day more that holds two sessions."""
        return self.model_copy(update={"doubles": self.doubles + 1}) if self.doubles < 7 else None

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        doubled = counted(after.doubles, "day")
        return f"up to {doubled} a week with two sessions instead of {self.doubles}"

    def reason(self) -> str:
        """Say why it is there."""
        return (
            "Hard work for the legs keeps clear of matches and of itself, jumps have days between "
            "them, the day before a match holds a primer at most and the day after it nothing; no "
            "day holds more than can be done well."
        )

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"Hard leg work stands {self.hours_since} h after a match, {self.hours_until} h before "
            f"one and {self.hard_hours} h apart; jumps {self.jump_days} days apart; the day before "
            f"a match holds a primer of {self.primer_minutes} min of work at most, the day after "
            f"nothing. A day with practice and own work holds {self.day_minutes} min and "
            f"{self.day_load} AU at most, {self.load_before_2} AU two days before a match and "
            f"{self.load_before_1} AU on the eve; a day of travel of {self.travel_day_hours:g} h "
            "or more nothing."
        )


class _Same:
    """Ladders told apart by being the same objects: to compare all they hold would take long."""

    def __init__(self, qualities: tuple[Quality, ...]) -> None:
        self.qualities = qualities

    def __hash__(self) -> int:
        return id(self.qualities)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.qualities is other.qualities


def _rates(season: Season) -> tuple[tuple[Place, float], ...]:
    """Return by place the most AU a minute of its work comes to."""
    return _rates_of(_Same(season.qualities))


@lru_cache(maxsize=16)
def _rates_of(same: _Same) -> tuple[tuple[Place, float], ...]:
    found: dict[Place, float] = dict.fromkeys(PLACES, 0.0)
    for quality in same.qualities:
        for dose in list(Dose)[1:]:
            for rung in range(len(quality.bands)):
                rate = quality.load(dose, rung) / quality.minutes(dose, rung)
                found[quality.place] = max(found[quality.place], rate)
    return tuple(found.items())


def _largest(season: Season) -> int:
    """Return the AU of a week with everything at its fullest."""
    return sum(quality.most_load for quality in season.qualities)


@lru_cache(maxsize=1024)
def _held(rule: Spacing, around: Around) -> WeekNeeds:
    """Return what the rule sees in a week; many plans of one season are audited in a row."""
    return rule.look(around)
