"""Exposure: every quality all year, with only so long a gap."""

from typing import ClassVar, Self

from pydantic import Field

from constraints.left import crowd_of, left_of
from optimiser.board.board import Board
from optimiser.board.model import Tag, total
from optimiser.days.room import rooms_left
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import Season
from optimiser.domain.sentence import Span
from optimiser.rule import Rule
from optimiser.setup.matches import busiest_seven


class Exposure(Rule):
    """Train every quality at least once in any so many weeks.

    Weeks are counted in which matches and breaks leave room, sessions spaced as usual: for what is
    asked of every week, room for a short field and a short gym session; for the rest, room for
    more than primers.

    Parameters
    ----------
    gap_weeks
        By quality: any this many counted weeks in a row hold an exposure.
    usual_gap
        The same for qualities not named.
    match_counts
        Qualities for which a week with a match is an exposure.
    spared
        Matches in any seven days from which a week is not counted in any case.
    yields
        False to ask it of every week, whatever matches and breaks leave.
    """

    name: ClassVar[str] = "exposure"
    asks: ClassVar[str] = "regular sessions of every quality"
    title: ClassVar[str] = "Regular exposure"
    told: ClassVar[dict[str, str]] = {
        "": "{quality} left out for longer: matches or breaks leave room for touches at most"
    }
    unit: ClassVar[str] = "exposures"
    labels: ClassVar[dict[str, str]] = {
        "gap_weeks": "Once in so many weeks",
        "usual_gap": "Once in so many weeks: any other quality",
        "match_counts": "A match counts as training of",
        "spared": "Not counted from so many matches in seven days",
        "yields": "Asks less where matches and breaks leave no room",
    }
    looser_up: ClassVar[frozenset[str]] = frozenset({"gap_weeks", "usual_gap"})
    sources: ClassVar[str] = (
        "Issurin 2008: residuals, max speed 5 +- 3 days; Ronnestad et al. 2011, JSCR "
        "25(10):2653-60: strength kept on one session a week; Malone et al. 2017, J Sci Med Sport "
        "20:250-4: top speed weekly"
    )

    gap_weeks: dict[str, int] = Field(
        default_factory=lambda: {
            "sprint": 1,
            "resisted_sprint": 2,
            "plyometrics": 2,
            "power": 2,
            "max_strength": 1,
            "general_strength": 2,
        }
    )
    usual_gap: int = Field(default=2, ge=1, le=12)
    match_counts: tuple[str, ...] = ()
    spared: int = Field(default=7, ge=1, le=7)
    yields: bool = True

    def post(self, board: Board) -> None:
        """Post every window of counted weeks."""
        season = board.season
        weekly, wider = self._counted(season)
        for index, quality in enumerate(season.qualities):
            gap = self.gap_weeks.get(quality.key, self.usual_gap)
            counted = weekly if gap == 1 else wider
            for first in range(len(counted) - gap + 1):
                window = counted[first : first + gap]
                if not self._played(season, quality.key, window):
                    self._post_window(board, index, window)

    def _counted(self, season: Season) -> tuple[list[int], list[int]]:
        """Return the weeks with room for two short sessions, and those with room for more."""
        if not self.yields:
            weeks = [week.index for week in season.weeks if not week.closed]
            return weeks, weeks
        busy = busiest_seven(season)
        rooms = rooms_left(season)
        weeks = [week.index for week in season.weeks if busy[week.index] < self.spared]
        return (
            [week for week in weeks if rooms[week].short],
            [week for week in weeks if rooms[week].usual],
        )

    def _played(self, season: Season, key: str, window: list[int]) -> bool:
        if key not in self.match_counts:
            return False
        return any(season.weeks[week].fixtures for week in window)

    def _post_window(self, board: Board, index: int, window: list[int]) -> None:
        quality = board.season.qualities[index]
        tag = self._tag(quality, window)
        done = total(board.at_least(index, week, Dose.TOUCH) for week in window)
        low = 1 - self.free(window[-1], quality.key)
        if low > 0:
            board.model.at_least(done, low, tag)

    def _tag(self, quality: Quality, window: list[int]) -> Tag:
        week = window[-1]
        if len(window) == 1:
            form = "{quality:is} trained in {week}"
            return self.tag(form, week, quality, limit=int(Dose.TOUCH), subject="dose")
        where = Span(window[0], week)
        return self.tag("{quality:is} trained in {where}", week, quality, where=where)

    def ease(self, place: Tag) -> str:
        """Name the week, or the weeks."""
        return f"do without {{quality}} in {'{week}' if place.subject else '{where}'}"

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Count how long each quality has gone without, counted week by counted week."""
        found: list[Breach] = []
        weekly = [week for week in season.weeks if self._counts(season, week.index)]
        wider = [w for w in weekly if not self.yields or left_of(season, w.index).usual]
        for index, quality in enumerate(season.qualities):
            gap = self.gap_weeks.get(quality.key, self.usual_gap)
            counting = wider if gap > 1 else weekly
            without = 0
            for week in counting:
                match = bool(week.fixtures) and quality.key in self.match_counts
                done = match or plan.doses[index][week.index] is not Dose.NONE
                without = 0 if done else without + 1
                if without >= gap:
                    form = "{quality:is} not trained up to {week} ({without}x)"
                    found += self.breaches(1, form, week.index, quality, without=without)
        return found

    def _counts(self, season: Season, week: int) -> bool:
        here = season.weeks[week]
        if not self.yields:
            return not here.closed
        return crowd_of(season, week) < self.spared and left_of(season, week).short

    def loosened(self) -> Self | None:
        """Return the rule with a week more between exposures."""
        gaps = {key: gap + 1 for key, gap in self.gap_weeks.items()}
        usual = min(12, self.usual_gap + 1)
        return self.model_copy(update={"gap_weeks": gaps, "usual_gap": usual})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return "a week more between two sessions of a quality"

    def words(self) -> str:
        """Say it to the coach."""
        named = ", ".join(f"{key.replace('_', ' ')} {gap}" for key, gap in self.gap_weeks.items())
        return f"Every quality is trained once in so many weeks that leave room for it: {named}."
