"""Session caps: how many sessions a week, how long, and how much in each."""

from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import Tag, Terms, scaled, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place
from optimiser.domain.season import Phase, Season
from optimiser.domain.strict import Strict
from optimiser.domain.wording import counted
from optimiser.rule import Rule


class PhaseCaps(Strict):
    """Most sessions a week in one phase.

    Parameters
    ----------
    field, gym
        Most sessions there.
    """

    field: int = Field(default=2, ge=0, le=5)
    gym: int = Field(default=2, ge=0, le=5)


class SessionCaps(Rule):
    """Cap sessions a week, minutes a session and pieces a session.

    Parameters
    ----------
    off_season, pre_season, in_season
        Most field and gym sessions a week.
    field_minutes, gym_minutes
        Longest session of this plan's own work.
    pieces
        Most qualities trained in one session.
    """

    name: ClassVar[str] = "session_caps"
    asks: ClassVar[str] = "limits of sessions and of their lengths"
    title: ClassVar[str] = "Sessions a week"
    unit: ClassVar[str] = "sessions"
    labels: ClassVar[dict[str, str]] = {
        "off_season": "Most sessions off-season",
        "pre_season": "Most sessions pre-season",
        "in_season": "Most sessions in season",
        "field": "field",
        "gym": "gym",
        "field_minutes": "Longest field session, minutes of own work",
        "gym_minutes": "Longest gym session, minutes of own work",
        "pieces": "Most qualities in one session",
    }
    caps_sessions: ClassVar[bool] = True
    looser_up: ClassVar[frozenset[str]] = frozenset(
        {"off_season", "pre_season", "in_season", "field_minutes", "gym_minutes", "pieces"}
    )
    eases: ClassVar[dict[str, str]] = {
        "field": "allow {higher} instead of {limit:field session} in {week}",
        "gym": "allow {higher} instead of {limit:gym session} in {week}",
        "field_minutes": "let field sessions of {week} run {more} over",
        "gym_minutes": "let gym sessions of {week} run {more} over",
        "field_pieces": "let field sessions of {week} hold {by:more quality}",
        "gym_pieces": "let gym sessions of {week} hold {by:more quality}",
    }
    sources: ClassVar[str] = (
        "Weldon et al. 2022, Biol Sport 39(3):715-26: 3-4 gym sessions off-season, 2-3 in season, "
        "31-60 min"
    )

    off_season: PhaseCaps = PhaseCaps(field=2, gym=3)
    pre_season: PhaseCaps = PhaseCaps(field=2, gym=3)
    in_season: PhaseCaps = PhaseCaps(field=2, gym=2)
    field_minutes: int = Field(default=50, ge=5, le=180)
    gym_minutes: int = Field(default=60, ge=5, le=180)
    pieces: int = Field(default=3, ge=1, le=8)

    def _cap(self, phase: Phase, place: Place) -> int:
        table = {Phase.OFF: self.off_season, Phase.PRE: self.pre_season, Phase.IN: self.in_season}
        return table[phase].field if place == "field" else table[phase].gym

    def _longest(self, place: Place) -> int:
        return self.field_minutes if place == "field" else self.gym_minutes

    def post(self, board: Board) -> None:
        """Bound each week's sessions, and its work by the sessions there are."""
        places: tuple[Place, ...] = ("field", "gym")
        for week in board.open_weeks():
            for place in places:
                self._post_count(board, week, place)
                self._post_room(board, week, place)

    def _post_count(self, board: Board, week: int, place: Place) -> None:
        cap = self._cap(board.season.weeks[week].phase, place)
        form = f"at most {{limit:{place} session}} in {{week}}"
        tag = self.tag(form, week, part=place, limit=cap)
        most = cap + self.free(week, part=place)
        board.model.at_most(board.sessions(place, week), most, tag)

    def _post_room(self, board: Board, week: int, place: Place) -> None:
        here = [i for i, q in enumerate(board.season.qualities) if q.place == place]
        count = board.sessions(place, week)
        longest = self._longest(place)
        form = f"{place} sessions of {{week}} hold at most {{limit}} min of own work"
        part = f"{place}_minutes"
        tag = self.tag(form, week, part=part, unit="minutes", limit=longest)
        work = total(board.minutes_of(quality, week) for quality in here)
        room = total([work, scaled(count, -longest)])
        board.model.at_most(room, self.free(week, part=part), tag)
        if not board.outline.keeps(tag) and not self.free(week, part=part):
            self._post_last_session(board, here, work, count, longest, tag)
        form = f"{place} sessions of {{week}} hold at most {{limit:quality}} each"
        part = f"{place}_pieces"
        tag = self.tag(form, week, part=part, unit="pieces", limit=self.pieces)
        trained = total(board.at_least(quality, week, Dose.TOUCH) for quality in here)
        room = total([trained, scaled(count, -self.pieces)])
        board.model.at_most(room, self.free(week, part=part), tag)

    def _post_last_session(
        self, board: Board, here: list[int], work: Terms, count: Terms, longest: int, tag: Tag
    ) -> None:
        """Say again what a session adds when the work left does not fill it: a tighter row."""
        most = sum(board.season.qualities[index].most_minutes for index in here)
        filled = most // longest
        if filled and most % longest:
            # with `filled` sessions all are full, one more brings the rest and further ones nothing
            last = most - filled * longest
            terms = total([work, scaled(count, -last)])
            board.model.at_most(terms, filled * (longest - last), tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Count sessions, minutes and pieces of each week."""
        found = []
        for week in season.weeks:
            for place, row in (("field", plan.field), ("gym", plan.gym)):
                if not week.closed:
                    found += self._week(plan, season, week.index, place, row[week.index])
        return found

    def _week(
        self, plan: Plan, season: Season, week: int, place: str, sessions: int
    ) -> list[Breach]:
        kind: Place = "field" if place == "field" else "gym"
        doses = [
            (quality, plan.doses[index][week], plan.rungs[index][week])
            for index, quality in enumerate(season.qualities)
            if quality.place == place and plan.doses[index][week] is not Dose.NONE
        ]
        minutes = sum(quality.minutes(dose, rung) for quality, dose, rung in doses)
        rows = [
            (place, sessions, self._cap(season.weeks[week].phase, kind), "sessions"),
            (f"{place}_minutes", minutes, sessions * self._longest(kind), "minutes"),
            (f"{place}_pieces", len(doses), sessions * self.pieces, "pieces"),
        ]
        return [
            breach
            for part, have, most, unit in rows
            for breach in self.breaches(
                have - most,
                f"{{week:has}} {{have:{place} {unit.removesuffix('s')}}}, {{most}} at most",
                week,
                part=part,
                unit=unit,
                have=have,
                most=most,
            )
        ]

    def loosened(self) -> Self | None:
        """Return the rule with one gym session more in season."""
        inside = self.in_season
        if inside.gym >= 5:
            return None
        more = inside.model_copy(update={"gym": inside.gym + 1})
        return self.model_copy(update={"in_season": more})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        more, less = after.in_season.gym, self.in_season.gym
        return f"{counted(more, 'gym session')} a week in season instead of {less}"

    def words(self) -> str:
        """Say it to the coach."""
        inside = self.in_season
        return (
            f"In season at most {inside.field} field and {inside.gym} gym sessions a week, of "
            f"{self.field_minutes} and {self.gym_minutes} min of own work, {self.pieces} qualities "
            "in each."
        )
