"""What it means, in a coach's words, that a demand gives way."""

import re
from collections.abc import Callable

from cli.render.demand_words import amount, quality_name
from cli.render.grouping import Said
from cli.render.tidy import tidy
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.demand import Demand
from optimiser.explain.repair import Give

AT_MOST = re.compile(r"at most (\d+)")
#: Where a sentence says its limit.
LIMIT = re.compile(r"(?:at most|at least|days for|rung|lasts|has) (\d+)")


class Easing:
    """One demand that gives way, and the plan that is then possible."""

    def __init__(self, season: Season, plan: Plan, give: Give) -> None:
        self.demand: Demand = give.demand
        self.by, self.says = give.by, give.demand.says[0]
        self._season, self._plan = season, plan
        self.name = quality_name(season, self.demand.key.quality)

    @property
    def week(self) -> str:
        """Return the week as people name it."""
        return "the season" if self.demand.key.week is None else f"week {self.demand.key.week + 1}"

    @property
    def quality(self) -> str:
        """Return the quality's name in the middle of a sentence."""
        return (self.name or "").lower()

    @property
    def more(self) -> str:
        """Return how much is given, with its unit."""
        return amount(self.by, self.demand.unit)

    def raised(self, sign: int = 1) -> str:
        """Return ``3 instead of 2`` for the limit the sentence says."""
        found = LIMIT.search(self.says)
        limit = int(found[1]) if found else 0
        return f"{limit + sign * self.by} instead of {limit}"

    @property
    def left(self) -> int:
        """Return the limit the sentence says, less what is given."""
        found = LIMIT.search(self.says)
        return (int(found[1]) if found else 0) - self.by

    def after_most(self) -> str:
        """Return what stands after ``at most N``."""
        found = AT_MOST.search(self.says)
        return self.says[found.end() :].strip() if found else ""

    def windows(self) -> str:
        """Return the weeks an exposure is asked for in."""
        return self.says.rsplit(" in ", 1)[-1]

    def block(self) -> str:
        """Return how long the block is that starts here in the plan."""
        start = self.demand.key.week
        found = next((len(b) for b in self._plan.blocks() if b.start == start), None)
        return f"last {amount(found, 'weeks')}" if found else f"be {self.more} longer or shorter"

    def pinned(self) -> str:
        """Return what is pinned: ``band S5`` or ``dose full``."""
        found = re.search(r"pinned to (\w+ \S+) in", self.says)
        return found[1] if found else "its choice"

    def chosen(self) -> str:
        """Return what the plan has in place of what was pinned."""
        week, key = self.demand.key.week, self.demand.key.quality
        if week is None or key is None:
            return ""
        index = self._season.keys.index(key)
        rung = self._plan.rungs[index][week]
        if self.demand.key.part == "dose" or rung is None:
            return f" (tried with dose {self._plan.doses[index][week].word})"
        return f" (tried with band {self._season.qualities[index].bands[rung].code})"


Words = Callable[[Easing], str]

EASINGS: dict[tuple[str, str], Words] = {
    ("blocks", "length"): lambda e: f"let a block that starts in {e.week} {e.block()}",
    ("blocks", "border"): lambda e: (
        f"let a block that starts in {e.week} run across a phase border"
    ),
    ("progression", "up"): lambda e: f"let {e.quality} go up {e.raised()} rungs into {e.week}",
    ("progression", "down"): lambda e: f"let {e.quality} go down {e.raised()} rungs into {e.week}",
    ("progression", "volume"): lambda e: f"let the minutes rise by {e.more} more up to {e.week}",
    ("deload", "volume"): lambda e: f"let {e.week} have {e.more} more than a lighter week may",
    ("deload", "of_full"): lambda e: f"allow {e.raised()} min in {e.week}, a lighter week",
    ("deload", "sessions"): lambda e: f"let deload {e.week} hold {e.raised(-1)} sessions",
    ("taper", "volume"): lambda e: f"let taper {e.week} have {e.more} more than it may",
    ("taper", "of_full"): lambda e: f"allow {e.raised()} min in taper {e.week}",
    ("taper", "sessions"): lambda e: f"let taper {e.week} lose {e.more} more",
    ("taper", "bands"): lambda e: f"let {e.quality} step down {e.more} into {e.week}",
    ("taper", "new"): lambda e: f"let {e.quality} step up {e.more} into {e.week}",
    ("taper", "apart"): lambda e: f"accept that {e.says}",
    ("session_caps", "field"): lambda e: f"allow {e.raised()} {e.after_most()}",
    ("session_caps", "gym"): lambda e: f"allow {e.raised()} {e.after_most()}",
    ("session_caps", "field_minutes"): lambda e: (
        f"let field sessions of {e.week} run {e.more} over"
    ),
    ("session_caps", "gym_minutes"): lambda e: f"let gym sessions of {e.week} run {e.more} over",
    ("session_caps", "field_pieces"): lambda e: (
        f"let field sessions of {e.week} hold {e.by} more qualities"
    ),
    ("session_caps", "gym_pieces"): lambda e: (
        f"let gym sessions of {e.week} hold {e.by} more qualities"
    ),
    ("congestion", "sessions"): lambda e: f"allow {e.raised()} {e.after_most()}",
    ("congestion", "hard"): lambda e: f"allow {e.raised()} {e.after_most()}",
    ("spacing", "field"): lambda e: f"allow {e.raised()} field sessions by days in {e.week}",
    ("spacing", "gym"): lambda e: f"allow {e.raised()} gym sessions by days in {e.week}",
    ("spacing", "sessions"): lambda e: f"allow {e.raised()} sessions by days in {e.week}",
    ("spacing", "load"): lambda e: f"allow {e.more} more by days in {e.week}",
    ("spacing", "hard"): lambda e: (
        f"allow {e.quality} above a touch in {e.week}, which has no day for hard leg work"
    ),
    ("spacing", "primer"): lambda e: (
        f"allow {e.quality} above a touch in {e.week}, which has days for primers only"
    ),
    ("spacing", "field_primer"): lambda e: f"let the field primer of {e.week} last {e.more} longer",
    ("spacing", "one_primer"): lambda e: f"let the primers of {e.week} last {e.more} longer",
    ("spacing", "gym_primer"): lambda e: f"let the gym primer of {e.week} last {e.more} longer",
    ("load_ramp", ""): lambda e: f"let the load of {e.week} rise by {e.more} more than it may",
    ("phase_load", ""): lambda e: (
        f"let the in-season weeks from {e.week.removeprefix('week ')} on have {e.more} more than "
        "their share of the pre-season's"
    ),
    ("exposure", ""): lambda e: f"do without {e.quality} in {e.windows()}",
    ("reentry", "rung"): lambda e: f"let {e.quality} restart at rung {e.raised()} in {e.week}",
    ("reentry", "volume"): lambda e: f"allow {e.raised()} min in {e.week}, soon after time off",
    ("foundation", ""): lambda e: (
        f"let {e.quality} stand on an upper rung in {e.week} after {e.raised(-1)} "
        f"{'week' if e.left == 1 else 'weeks'} of foundation"
    ),
    ("revisit", ""): lambda e: f"let {e.quality} do without its low block between the peaks",
    ("pin", "band"): lambda e: f"unpin {e.quality} from {e.pinned()} in {e.week}{e.chosen()}",
    ("pin", "dose"): lambda e: f"unpin {e.quality} from {e.pinned()} in {e.week}{e.chosen()}",
    ("pin", ""): lambda e: f"drop the pin in {e.week}, which is closed",
    ("budget", ""): lambda e: f"allow {e.raised()} {e.after_most()}",
}


def ease_said(season: Season, plan: Plan, give: Give) -> Said:
    """Return what it means that one demand gives way."""
    easing = Easing(season, plan, give)
    rule, part = give.demand.rule, give.demand.key.part
    words = EASINGS.get((rule, part)) or EASINGS.get((rule, ""))
    text = words(easing) if words else f"let {rule} give way by {easing.more}: {easing.says}"
    return Said(rule, give.demand.key.week, easing.name, tidy(text), give.demand.safety)
