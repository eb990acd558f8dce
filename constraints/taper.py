"""Taper: before the fixtures that matter volume falls, bands and sessions stay."""

import datetime as dt
import itertools
from collections.abc import Sequence
from typing import ClassVar, NamedTuple, Self

from pydantic import Field

from constraints.left import TOUCHES, crowd_of, left_of
from optimiser.board.board import Board
from optimiser.board.model import scaled, total
from optimiser.days.room import rooms_left
from optimiser.domain.breach import Breach
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.sentence import Span
from optimiser.domain.wording import listed
from optimiser.review.score import full_minutes, training_minutes
from optimiser.rule import Lighter, Rule
from optimiser.setup.matches import busiest_seven

Percent = int
NEAR_PEAKS = "the high fixtures of weeks {one} and {other} are {gap:week} apart"


class Eased(NamedTuple):
    """A taper week: most volume in per cent, and the weeks it is measured against."""

    percent: Percent
    against: list[int]


class Taper(Rule):
    """Ease into ``high`` fixtures for some weeks and into ``medium`` ones for one.

    Parameters
    ----------
    high_of_full, medium_of_full
        Most minutes in the weeks up to and with a high or medium fixture, in per cent of a week
        with everything at full dose; the last number is the fixture's own week. Of a usual loading
        week of 100 min in season the defaults leave 52 and 42 %, and 88 % before a medium fixture.
    least
        Minutes that a taper week may have whatever those per cent come to: a programme of few
        qualities keeps a touch of each.
    high, medium, allowance
        And at most so many per cent of the weeks before the taper plus ``allowance``, which may
        be below 0: a taper is lighter than a light spell too.
    reference
        How many weeks before the taper it is measured against (their mean; closed weeks, other
        taper weeks and weeks with room for primers or touches at most are passed over, at most
        eight weeks are looked back). Where there is one such week only, which may be a deload
        itself, a week with everything at full dose takes their place.
    sessions
        Least sessions of a taper week, in per cent of the last week before the taper; not asked
        of weeks with two matches in seven days, a break, or no room for a field and a gym session.
    keep_bands
        Weeks up to and with a high fixture in which no quality steps down.
    nothing_new
        Weeks up to and with a high fixture in which no quality steps up: nothing is met for the
        first time just before it.
    same_peak
        High fixtures at most this many weeks apart are one peak: a semi-final and a final three
        weeks later leave no room for two tapers, but each still eases its own last weeks.
    apart
        Least weeks from one peak to the next.
    yields
        False to ask it of every taper, whatever matches and breaks leave, and of every high fixture
        to be a peak of its own.
    """

    name: ClassVar[str] = "taper"
    asks: ClassVar[str] = "easier weeks before high matches"
    told: ClassVar[dict[str, str]] = {
        "volume": "a taper not held against the weeks before, too few or with little room",
        "sessions": "a taper with fewer sessions: its matches or breaks leave no room for more",
        "apart": "high fixtures so near that they share one peak",
    }
    unit: ClassVar[str] = "minutes"
    labels: ClassVar[dict[str, str]] = {
        "high_of_full": "Weeks up to a high match: minutes, per cent of a full week",
        "medium_of_full": "Weeks up to a medium match: minutes, per cent of a full week",
        "least": "Minutes that every such week may have",
        "high": "Weeks up to a high match: minutes, per cent of the weeks before",
        "medium": "Weeks up to a medium match: minutes, per cent of the weeks before",
        "reference": "Weeks before the taper it is set against",
        "allowance": "And so many minutes more, or less",
        "sessions": "Fewest sessions, per cent of the week before",
        "keep_bands": "Weeks up to a high match without a step down",
        "nothing_new": "Weeks up to a high match without a step up",
        "same_peak": "High matches so many weeks apart share a peak",
        "apart": "Fewest weeks from peak to peak",
        "yields": "Asks less where matches and breaks leave no room",
    }
    safety: ClassVar[bool] = True
    no_safety: ClassVar[frozenset[str]] = frozenset({"sessions", "bands", "apart"})
    lightens: ClassVar[Lighter | None] = "taper"
    looser_up: ClassVar[frozenset[str]] = frozenset({"high", "medium", "allowance", "least"})
    looser_down: ClassVar[frozenset[str]] = frozenset({"sessions"})
    eases: ClassVar[dict[str, str]] = {
        "volume": "let taper {week} have {more} more than it may",
        "of_full": "allow {higher} instead of {limit} min in taper {week}",
        "sessions": "let taper {week} lose {more} more",
        "bands": "let {quality} step down {more} into {week}",
        "new": "let {quality} step up {more} into {week}",
        "apart": f"accept that {NEAR_PEAKS}, {{needed}} are needed for two tapers",
    }
    sources: ClassVar[str] = (
        "Bosquet et al. 2007, MSSE 39(8):1358-65: about 2 weeks, volume down 41-60 %, intensity "
        "and frequency kept; Mujika & Padilla 2003, MSSE 35(7):1182-7: sessions at most 20 % fewer"
    )

    high_of_full: tuple[int, ...] = Field(default=(30, 24), max_length=6)
    medium_of_full: tuple[int, ...] = Field(default=(50,), max_length=6)
    least: int = Field(default=30, ge=0, le=600)
    high: tuple[int, ...] = Field(default=(100, 100), max_length=6)
    medium: tuple[int, ...] = Field(default=(100,), max_length=6)
    reference: int = Field(default=2, ge=1, le=6)
    allowance: int = Field(default=-10, ge=-600, le=600)
    sessions: int = Field(default=100, ge=0, le=100)
    keep_bands: int = Field(default=4, ge=0, le=12)
    nothing_new: int = Field(default=3, ge=0, le=12)
    same_peak: int = Field(default=3, ge=0, le=8)
    apart: int = Field(default=4, ge=0, le=20)
    yields: bool = True

    def post(self, board: Board) -> None:
        """Post every taper week found by walking back from the fixtures."""
        season = board.season
        eased = self._eased(season)
        busy = busiest_seven(season)
        rooms = rooms_left(season)
        for week, (percent, against) in sorted(eased.items()):
            self._post_volume(board, week, percent, against)
            calm = busy[week] < 2 and rooms[week].short
            calm = calm and season.weeks[week].session_limit is None
            if against and (calm or not self.yields):
                self._post_sessions(board, week, against[0])
        for week in board.open_weeks():
            self._post_of_full(board, week)
        for week in sorted(self._kept_weeks(season)):
            self._post_steps(board, week, "bands", "down")
        for week in sorted(self._known_weeks(season)):
            self._post_steps(board, week, "new", "up")
        self._post_apart(board)

    def _eased(self, season: Season) -> dict[int, Eased]:
        percents: dict[int, int] = {}
        for priority, fractions in ((Priority.MEDIUM, self.medium), (Priority.HIGH, self.high)):
            for fixture_week in season.weeks_with(priority):
                for back, percent in enumerate(reversed(fractions)):
                    week = fixture_week - back
                    if week >= 0 and not season.weeks[week].closed:
                        percents[week] = min(percent, percents.get(week, percent))
        rooms, busy = rooms_left(season), busiest_seven(season)
        usual = {
            week.index
            for week, room, many in zip(season.weeks, rooms, busy, strict=True)
            if (room.usual and many < TOUCHES if self.yields else not week.closed)
            and week.index not in percents
        }
        return {
            week: Eased(percent, self._before(week, usual)) for week, percent in percents.items()
        }

    def _before(self, week: int, usual: set[int]) -> list[int]:
        """Return the nearest ordinary weeks before a taper week, latest first."""
        back = range(week - 1, max(-1, week - 9), -1)
        found = [past for past in back if past in usual][: self.reference]
        enough = len(found) >= min(2, self.reference) or not self.yields
        return found if enough else []

    def _post_volume(self, board: Board, week: int, percent: int, against: list[int]) -> None:
        tag = self.tag(
            "taper {week:has} at most {percent} % of the minutes before the taper plus {allowance} "
            "min",
            week,
            part="volume",
            subject="minutes",
            percent=percent,
            allowance=self.allowance,
        )
        count = max(1, len(against))
        unit = 100 * count
        before = total(board.minutes(past) for past in against)
        terms = total([scaled(board.minutes(week), unit), scaled(before, -percent)])
        high = unit * (self.allowance + self.free(week, part="volume"))
        if not against:
            high += percent * board.season.full_minutes()
        board.model.at_most(terms, high, tag, unit=unit)

    def _post_of_full(self, board: Board, week: int) -> None:
        season = board.season
        caps = [
            fractions[len(fractions) - 1 - ahead]
            for priority, fractions in self._of_full()
            for ahead in range(len(fractions))
            if week + ahead in season.weeks_with(priority)
        ]
        if not caps:
            return
        full = season.full_minutes()
        most = max(full * min(caps) // 100, self.least)
        tag = self.tag(
            "taper {week:has} at most {limit} min ({percent} % of a full week)",
            week,
            part="of_full",
            limit=most,
            subject="minutes",
            percent=max(min(caps), 100 * most // full),
        )
        board.model.at_most(board.minutes(week), most + self.free(week, part="of_full"), tag)

    def _of_full(self) -> tuple[tuple[Priority, tuple[int, ...]], ...]:
        return ((Priority.HIGH, self.high_of_full), (Priority.MEDIUM, self.medium_of_full))

    def _post_sessions(self, board: Board, week: int, before: int) -> None:
        tag = self.tag(
            "taper {week:keeps} {percent} % of the sessions of {before}",
            week,
            part="sessions",
            unit="sessions",
            percent=self.sessions,
            before=Span(before, before),
        )
        now, then = board.all_sessions(week), board.all_sessions(before)
        terms = total([scaled(now, 100), scaled(then, -self.sessions)])
        low = -100 * self.free(week, part="sessions")
        board.model.at_least(terms, low, tag, unit=100)

    def _kept_weeks(self, season: Season) -> set[int]:
        """Return the weeks into which no quality steps down."""
        spans = [(week, self.keep_bands) for week in season.weeks_with(Priority.HIGH)]
        spans += [(week, len(self.medium)) for week in season.weeks_with(Priority.MEDIUM)]
        found = {week - back for week, span in spans for back in range(span)}
        return _following(season, found)

    def _known_weeks(self, season: Season) -> set[int]:
        """Return the weeks into which no quality steps up."""
        peaks = season.weeks_with(Priority.HIGH)
        return _following(
            season, {week - back for week in peaks for back in range(self.nothing_new)}
        )

    def _post_steps(self, board: Board, week: int, part: str, way: str) -> None:
        """Let no quality step up, or down, into a week."""
        above, below = board.entering, board.leaving
        if way == "down":
            above, below = below, above
        for index, quality in enumerate(board.season.qualities):
            spare = self.free(week, quality.key, part)
            form = f"{{quality:does}} not step {way} into {{week}}"
            tag = self.tag(form, week, quality, part, unit="rungs")
            for rung in range(1 + spare, len(quality.bands)):
                for layer in board.layers(index):
                    high = above(index, week, rung, layer)
                    kept = below(index, week, rung - spare, layer)
                    board.model.at_most(total([high, scaled(kept, -1)]), 0, tag)

    def _post_apart(self, board: Board) -> None:
        weeks = board.season.weeks_with(Priority.HIGH)
        for before, after in itertools.pairwise(weeks):
            missing = self.apart - (after - before) - self.free(after, part="apart")
            one_peak = self.yields and after - before <= self.same_peak
            if missing > 0 and not one_peak and not _goes_on(board.season, after):
                tag = self.tag(
                    f"{NEAR_PEAKS}, {{needed}} are needed for two tapers",
                    after,
                    part="apart",
                    unit="weeks",
                    one=before + 1,
                    other=after + 1,
                    gap=after - before,
                    needed=self.apart,
                )
                board.model.at_most({board.one: missing}, 0, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Go through the weeks and ask of each which fixtures lie ahead."""
        percents = {
            week.index: min(self._ahead(season, week.index))
            for week in season.weeks
            if not week.closed and self._ahead(season, week.index)
        }
        found = []
        for week, percent in percents.items():
            usual = self._usual(season, week, set(percents))
            found += self._volume(plan, season, week, percent, usual)
            if usual:
                found += self._fewer(plan, season, week, usual[0])
        found += self._over_full(plan, season)
        found += self._bands(plan, season) + self._new(plan, season)
        return found + self._apart(season)

    def _over_full(self, plan: Plan, season: Season) -> list[Breach]:
        """Walk back from each fixture and keep the lowest limit of each week."""
        caps: dict[int, int] = {}
        for week in season.weeks:
            for priority, fractions in self._of_full():
                if any(fixture.priority.eased_as is priority for fixture in week.fixtures):
                    for back, percent in enumerate(fractions[::-1]):
                        early = week.index - back
                        caps[early] = min(percent, caps.get(early, percent))
        full = full_minutes(season)
        form = "taper {week:has} {minutes} min, a full week would have {full}"
        found: list[Breach] = []
        for early, percent in sorted(caps.items()):
            if early < 0 or season.weeks[early].closed:
                continue
            minutes = training_minutes(season, plan, early)
            over = minutes - max(full * percent // 100, self.least)
            found += self.breaches(over, form, early, part="of_full", minutes=minutes, full=full)
        return found

    def reach(self, plan: Plan, week: int) -> range:
        """Return the weeks looked back over."""
        return range(max(0, week - 8), week + 1)

    def blamed(self, season: Season, plan: Plan, breaches: Sequence[Breach]) -> list[dt.date]:
        """Return the high fixtures that share a peak, or the matches that leave little room."""
        peaks = [each.week for each in breaches if each.part == "apart" and each.week is not None]
        others = super().blamed(season, plan, [each for each in breaches if each.part != "apart"])
        near = {here for week in peaks for here in range(max(0, week - self.apart), week + 1)}
        played = [fixture for week in sorted(near) for fixture in season.weeks[week].fixtures]
        highs = [each.date for each in played if each.priority is Priority.HIGH]
        return sorted({*others, *highs})

    def marks(self, plan: Plan, season: Season) -> frozenset[int]:
        """Return the taper weeks."""
        return frozenset(
            week.index
            for week in season.weeks
            if not week.closed and self._ahead(season, week.index)
        )

    def _ahead(self, season: Season, week: int) -> list[int]:
        """Return the limit each coming fixture puts on this week, in per cent."""
        limits = []
        for ahead in range(max(len(self.high), len(self.medium))):
            if week + ahead >= len(season.weeks):
                break
            kinds = {f.priority.eased_as for f in season.weeks[week + ahead].fixtures}
            for priority, fractions in ((Priority.HIGH, self.high), (Priority.MEDIUM, self.medium)):
                if priority in kinds and ahead < len(fractions):
                    limits.append(fractions[len(fractions) - 1 - ahead])
        return limits

    def _usual(self, season: Season, week: int, eased: set[int]) -> list[int]:
        usual: list[int] = []
        for back in range(1, 9):
            past = week - back
            if past < 0 or len(usual) == self.reference:
                break
            usable = not season.weeks[past].closed
            if self.yields:
                usable = left_of(season, past).usual and crowd_of(season, past) < TOUCHES
            if past not in eased and usable:
                usual.append(past)
        return usual if len(usual) > 1 or self.reference == 1 or not self.yields else []

    def _volume(
        self, plan: Plan, season: Season, week: int, percent: int, usual: list[int]
    ) -> list[Breach]:
        minutes = training_minutes(season, plan, week)
        before = sum(training_minutes(season, plan, past) for past in usual)
        count = len(usual) or 1
        before = before if usual else full_minutes(season)
        over = -((percent * before - 100 * count * minutes) // (100 * count))
        over -= self.allowance
        form, mean = "taper {week:has} {minutes} min, the weeks before {mean:.0f}", before / count
        return self.breaches(over, form, week, part="volume", minutes=minutes, mean=mean)

    def _fewer(self, plan: Plan, season: Season, week: int, before: int) -> list[Breach]:
        spared = crowd_of(season, week) > 1 or season.weeks[week].session_limit is not None
        if self.yields and (spared or not left_of(season, week).short):
            return []
        now, then = plan.sessions(week), plan.sessions(before)
        return self.breaches(
            -((100 * now - self.sessions * then) // 100),
            "taper {week:has} {now:session}, {before} had {then}",
            week,
            part="sessions",
            unit="sessions",
            now=now,
            before=Span(before, before),
            then=then,
        )

    def _bands(self, plan: Plan, season: Season) -> list[Breach]:
        kept = [week for week in range(len(season.weeks)) if self._in_run_in(season, week)]
        return self._steps(plan, season, kept, "bands", "{quality:steps} down into {week}")

    def _new(self, plan: Plan, season: Season) -> list[Breach]:
        """Walk back from each high fixture and look for a step up."""
        late = {
            peak.index - back
            for peak in season.weeks
            if any(fixture.priority.great for fixture in peak.fixtures)
            for back in range(self.nothing_new)
        }
        form = "{quality:steps} up into {week}, just before a high fixture"
        return self._steps(plan, season, sorted(late), "new", form)

    def _steps(
        self, plan: Plan, season: Season, weeks: Sequence[int], part: str, form: str
    ) -> list[Breach]:
        found: list[Breach] = []
        for week in (week for week in weeks if week > 0):
            for quality, row in zip(season.qualities, plan.rungs, strict=True):
                now, before = row[week], row[week - 1]
                if now is None or before is None:
                    continue
                over = now - before if part == "new" else before - now
                found += self.breaches(over, form, week, quality, part, unit="rungs")
        return found

    def _in_run_in(self, season: Season, week: int) -> bool:
        for priority, span in (
            (Priority.HIGH, self.keep_bands),
            (Priority.MEDIUM, len(self.medium)),
        ):
            for ahead in season.weeks[week : week + span]:
                if any(fixture.priority.eased_as is priority for fixture in ahead.fixtures):
                    return True
        return False

    def _apart(self, season: Season) -> list[Breach]:
        form = "the peak of {week} comes {gap:week} after the last one"
        found: list[Breach] = []
        last: int | None = None
        for week in season.weeks:
            if week.top_priority is None or not week.top_priority.great:
                continue
            gap = week.index - last if last is not None else None
            going_on = any(e.first < week.monday <= e.last for e in season.events)
            one_peak = going_on or (self.yields and gap is not None and gap <= self.same_peak)
            if gap is not None and not one_peak:
                short = self.apart - gap
                found += self.breaches(short, form, week.index, part="apart", unit="weeks", gap=gap)
            last = week.index
        return found

    def loosened(self) -> Self | None:
        """Return the rule with 10 % more volume before high fixtures."""
        if all(percent >= 100 for percent in self.high + self.high_of_full):
            return None
        more = {
            name: tuple(max(each, min(100, each + 10)) for each in getattr(self, name))
            for name in ("high_of_full", "high")
        }
        return self.model_copy(update=more)

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        less, more = self.high_of_full, after.high_of_full
        if less == more:
            return "weeks up to a high match held less far below the weeks before"
        now, was = (listed([str(percent) for percent in percents]) for percents in (more, less))
        return f"weeks up to a high match at {now} % of a full week instead of {was} %"

    def reason(self) -> str:
        """Say why it is there."""
        return (
            "Up to a high match there is less and less work, so that the side comes to it fresh; "
            "sessions stay as many and bands as specific, as it is the amount that tires."
        )

    def words(self) -> str:
        """Say it to the coach."""
        falls = ", ".join(f"{percent} %" for percent in self.high_of_full)
        return (
            f"Before a high fixture volume falls to {falls} of a full week (or {self.least} min), "
            f"and below the weeks before; bands do not step down in its last {self.keep_bands} "
            f"weeks, nor up in its last {self.nothing_new}, and {self.sessions} % of the sessions "
            "stay."
        )


def _goes_on(season: Season, week: int) -> bool:
    """Tell whether a week begins inside an event of several days: that is one peak."""
    monday = season.weeks[week].monday
    event = season.event_on(monday)
    return event is not None and event.first < monday


def _following(season: Season, found: set[int]) -> set[int]:
    """Return those of the weeks that follow an open week and are open themselves."""
    return {
        week
        for week in found
        if week > 0 and not season.weeks[week].closed and not season.weeks[week - 1].closed
    }
