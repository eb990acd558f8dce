"""Rest: closed weeks have no training, and partly closed ones only so many sessions."""

from typing import ClassVar

from optimiser.board.board import Board
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.audit import CLOSED
from optimiser.rule import Rule


class Rest(Rule):
    """Keep closed weeks free and weeks with breaks within their session limit."""

    name: ClassVar[str] = "rest"
    asks: ClassVar[str] = "fewer sessions in weeks that a break touches"
    title: ClassVar[str] = "Weeks left untrained"
    dropped: ClassVar[str] = "as many sessions in weeks that a break touches as in others"
    unit: ClassVar[str] = "sessions"
    eases: ClassVar[dict[str, str]] = {
        "": "allow {higher} instead of {limit:session} beside the break of {week}"
    }
    sources: ClassVar[str] = (
        "FIFPRO 2025 expert panel (from memory): breaks of the off-season and mid-season kept free"
    )

    def post(self, board: Board) -> None:
        """Cap the sessions of weeks that a break touches; closed weeks have no choices at all."""
        for week in board.open_weeks():
            limit = board.season.weeks[week].session_limit
            if limit is not None:
                form = "{week:has} room for {limit:session} beside its break"
                tag = self.tag(form, week, limit=limit, subject="sessions")
                board.model.at_most(board.all_sessions(week), limit + self.free(week), tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Count the sessions of every week that a break touches."""
        found: list[Breach] = []
        for week, here in enumerate(season.weeks):
            done, limit = plan.field[week] + plan.gym[week], here.session_limit
            if here.closed:
                over = max(done, int(any(row[week] for row in plan.doses)))
                form = "closed {week:has} {done:session}"
                found += self.breaches(over, form, week, part=CLOSED, done=done)
            elif limit is not None:
                form = "{week:has} {done:session}, its break leaves room for {limit}"
                found += self.breaches(done - limit, form, week, done=done, limit=limit)
        return found

    def words(self) -> str:
        """Say it to the coach."""
        return "No training in closed weeks; weeks with a break keep to its session limit."
