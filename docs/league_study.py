"""Does a winter break pay, and what does a third cup cost? Lists of a league, and the answer.

    python docs/league_study.py lists study     # the same league four times, one list each
    python docs/league_study.py answer study    # table, and docs/results/league_study.svg

Between the two, `seasonwright league` makes a season for every club of each list and
`seasonwright batch` plans them all; ``docs/results/league_study.md`` has the commands. Clubs are
invented.
"""

import csv
import datetime as dt
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from random import Random
from statistics import mean, median
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from tabulate import tabulate

from cli.files.safe_write import write_bytes
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.render.pictures.save import svg_bytes
from cli.render.pictures.theme import PRINT, SMALL, TEXT, drawing
from optimiser.batch.row import BatchRow
from optimiser.batch.rule_sets import bootstrap_interval
from optimiser.domain.fixture import Fixture, Priority
from optimiser.joint_model.cost import season_cost
from optimiser.league.berger import double_table
from optimiser.league.clubs import LeagueClub, invent_clubs
from optimiser.league.cup import draw_cup
from optimiser.response.readiness import UNITS
from optimiser.review.score import readiness, training_load, training_minutes

CLUBS, SEED = 8, 11
FIRST_ROUND = dt.date(2026, 10, 31)
#: Saturdays after the first round on which nothing is played, and with a winter break.
CHRISTMAS, BREAK = 8, (9, 10)
#: Weeks after the first round in whose midweek the rounds of the break are played instead.
INSTEAD = (5, 7)
#: Weeks whose midweek (the last: weekend) has a round of a cup, final last.
CUPS = {"Ardel Cup": (2, 6, 15), "Borough Cup": (4, 11, 16)}
#: Weeks whose midweek has a match of the third cup's groups.
THIRD = (1, 3, 5, 7, 12, 13)
MIDWEEK, WEEKEND, SUNDAY = -3, 0, 1
FRIDAY = 4
DESIGNS = {
    "as_it_is": "two cups, no break",
    "winter_break": "two weeks without a match",
    "holiday": "the same, the first of them off",
    "third_cup": "six more midweek matches",
}
BASE = "as_it_is"
PICTURE = Path(__file__).parent / "results" / "league_study.svg"


class Match(NamedTuple):
    """One line of a list."""

    date: dt.date
    home: str
    away: str
    competition: str
    priority: str


def on(week: int, day: int) -> dt.date:
    """Return a day of a week counted from the first round, relative to its Saturday."""
    return FIRST_ROUND + dt.timedelta(days=7 * week + day)


def lists(folder: Path) -> None:
    """Write the list of every design."""
    folder.mkdir(parents=True, exist_ok=True)
    for design in DESIGNS:
        with (folder / f"{design}.csv").open("w", encoding="utf-8", newline="") as file:
            rows = csv.writer(file)
            rows.writerow(Match._fields)
            rows.writerows(sorted(matches(design)))


def matches(design: str) -> Iterator[Match]:
    """Yield the matches of a design; all have the same league, draws and days but for its own."""
    chance = Random(SEED)
    clubs = invent_clubs(CLUBS, chance)
    at_home = [chance.choice((WEEKEND, SUNDAY)) for _ in clubs]
    yield from _league(clubs, at_home, rest=design in ("winter_break", "holiday"))
    for name, weeks in CUPS.items():
        yield from _cup(clubs, name, weeks, chance)
    if design == "third_cup":
        yield from _groups(clubs)


def _league(clubs: Sequence[LeagueClub], at_home: Sequence[int], *, rest: bool) -> Iterator[Match]:
    """Yield two rounds of everyone, on the day that the home club plays on."""
    table = double_table(CLUBS)
    saturdays = [week for week in range(len(table) + 1) if week != CHRISTMAS]
    for number, (week, pairs) in enumerate(zip(saturdays, table, strict=True), 1):
        moved = rest and week in BREAK
        rank = Priority.HIGH if number == len(table) else Priority.LOW
        for home, away in pairs:
            day = on(week, at_home[home - 1])
            date = on(INSTEAD[BREAK.index(week)], MIDWEEK) if moved else day
            yield Match(date, clubs[home - 1].name, clubs[away - 1].name, "League", rank)


def _cup(
    clubs: Sequence[LeagueClub], name: str, weeks: Sequence[int], chance: Random
) -> Iterator[Match]:
    for week, pairs in zip(weeks, draw_cup(CLUBS, chance), strict=True):
        final = week == weeks[-1]
        for home, away in pairs:
            rank = Priority.HIGH if final else Priority.MEDIUM
            date = on(week, WEEKEND if final else MIDWEEK)
            yield Match(date, clubs[home].name, clubs[away].name, name, rank)


def _groups(clubs: Sequence[LeagueClub]) -> Iterator[Match]:
    """Yield groups of four, everyone against everyone twice."""
    for first in range(0, CLUBS, 4):
        for week, pairs in zip(THIRD, double_table(4), strict=True):
            for home, away in pairs:
                names = clubs[first + home - 1].name, clubs[first + away - 1].name
                yield Match(on(week, MIDWEEK), *names, "Harbour Cup", Priority.LOW)


class Told(NamedTuple):
    """What a planned season comes to: readiness in points, hours of own work, load in AU.

    Parameters
    ----------
    high, league, autumn, spring
        Mean readiness, as far as the target asks for it, at the matches that matter most, and at
        those of the league on weekends that all designs play on: all, before and after the break.
    left
        What the bound leaves open of the season cost, in points: gap times cost.
    """

    high: float
    league: float
    autumn: float
    spring: float
    hours: float
    heaviest: float
    left: float

    def open(self, matches: float) -> float:
        """Return by how many points a better plan could lift a mean that is below target.

        Parameters
        ----------
        matches
            What a point below target costs at all the matches of the mean together.
        """
        return self.left / matches


class Measure(NamedTuple):
    """One thing that is compared, and what a point of it costs a season in all (0: not asked)."""

    title: str
    unit: str
    of: Callable[[Told], float]
    weight: int


#: Of a great match 8 a point, at two of them at the most; of an ordinary one 2.
MEASURES = (
    Measure("great matches", "points", lambda told: told.high, 8),
    Measure("league, all", "points", lambda told: told.league, 2 * 11),
    Measure("league, before the break", "points", lambda told: told.autumn, 2 * 8),
    Measure("league, after the break", "points", lambda told: told.spring, 2 * 3),
    Measure("own work", "hours", lambda told: told.hours, 0),
    Measure("heaviest week", "AU", lambda told: told.heaviest, 0),
)


def tell(row: BatchRow) -> Told:
    """Return what a row's plan comes to, from its file and its choices."""
    loaded = read_scenario(Path(row.file))
    if row.plan is None or row.gap is None:
        raise SystemExit(f"{row.file} has no plan with a bound: {row.why_not or row.status}")
    season, rates = loaded.season, loaded.scenario.rates
    cost = season_cost(season, read_rules(loaded), row.plan, rates).total / UNITS
    planned, _ = readiness(season, row.plan)
    # above its target a week is not asked for more, so what is there says nothing of the league
    ready = [min(points, week.target) for points, week in zip(planned, season.weeks, strict=True)]
    days = [(week.index, each) for week in season.weeks for each in week.fixtures]
    league = [(at, m.date) for at, m in days if m.competition == "League" and _usual(m)]
    weeks = season.weeks
    return Told(
        high=mean(ready[at] for at, each in days if each.priority is Priority.HIGH),
        league=mean(ready[at] for at, _ in league),
        autumn=mean(ready[at] for at, date in league if date < on(BREAK[0], MIDWEEK)),
        spring=mean(ready[at] for at, date in league if date > on(BREAK[-1], SUNDAY)),
        hours=sum(training_minutes(season, row.plan, week.index) for week in weeks) / 60,
        heaviest=max(training_load(season, row.plan, w.index) + w.fixed_load for w in weeks),
        left=row.gap * cost,
    )


def _usual(match: Fixture) -> bool:
    """Tell whether a match is an ordinary one of a weekend that all designs play on."""
    free = on(BREAK[0], WEEKEND) <= match.date <= on(BREAK[-1], SUNDAY)
    return match.priority is Priority.LOW and match.date.weekday() > FRIDAY and not free


def read(folder: Path) -> dict[str, dict[str, Told]]:
    """Return what was planned, by design and club."""
    found: dict[str, dict[str, Told]] = {design: {} for design in DESIGNS}
    text = (folder / "results.rows.jsonl").read_text(encoding="utf-8")
    for row in map(BatchRow.model_validate_json, text.splitlines()):
        found[Path(row.file).parent.name][row.season] = tell(row)
    return found


class Difference(NamedTuple):
    """A design against the league as it is, club by club.

    Parameters
    ----------
    middle, low, high
        Median of the differences, and the 95 % bootstrap interval of it.
    blur
        Within how much of the median the gaps leave it open; 0 where they say nothing of it.
    """

    each: list[float]
    middle: float
    low: float
    high: float
    blur: float

    @property
    def words(self) -> str:
        """Return whether there is a difference."""
        if self.blur and abs(self.middle) <= self.blur:
            return "none this search can tell"
        return "none among these clubs" if self.low <= 0 <= self.high else ""


def difference(mine: dict[str, Told], base: dict[str, Told], measure: Measure) -> Difference:
    """Return how one measure differs from the league as it is."""
    each = [measure.of(mine[club]) - measure.of(base[club]) for club in base]
    # either of the two plans could be better by what its own gap leaves open
    blurs = [
        max(told.open(measure.weight) for told in (mine[club], base[club]))
        for club in base
        if measure.weight
    ]
    low, high = bootstrap_interval(each)
    return Difference(each, median(each), low, high, median(blurs) if blurs else 0.0)


def answer(folder: Path) -> None:
    """Print the table and draw the picture."""
    found = read(folder)
    found = {design: found[design] for design in DESIGNS if found[design]}
    base = found[BASE]
    table = [
        [measure.title, measure.unit, _number(median(map(measure.of, base.values()))), *cells]
        for measure in MEASURES
        for cells in [[_cell(difference(found[d], base, measure)) for d in found if d != BASE]]
    ]
    heads = ["median of the clubs", "", DESIGNS[BASE], *(DESIGNS[d] for d in found if d != BASE)]
    print(tabulate(table, heads, tablefmt="pipe", disable_numparse=True))
    left = [told.left for clubs in found.values() for told in clubs.values()]
    print(f"\nleft open by the gaps, of the season cost: median {median(left):.2f} points")
    write_bytes(PICTURE, svg_bytes(chart(found)))
    print(f"Wrote {PICTURE.name}.")


def _cell(found: Difference) -> str:
    told = f"{found.middle:+.2f} ({found.low:+.2f} to {found.high:+.2f}"
    told += f"; open {found.blur:.2f})" if found.blur else ")"
    return f"{told} {found.words}".strip()


def _number(value: float) -> str:
    return f"{value:.1f}" if abs(value) < 1000 else f"{value:.0f}"


def chart(found: dict[str, dict[str, Told]]) -> Figure:
    """Return the picture: a dot a club, the median, its interval and what the gaps leave open."""
    with drawing(PRINT):
        figure = Figure(figsize=(10.0, 6.4))
        others = [design for design in found if design != BASE]
        shown = MEASURES[:5]
        for place, measure in enumerate(shown):
            axes = figure.add_axes((0.23, 0.775 - 0.178 * place, 0.74, 0.11))
            _panel(axes, measure, [difference(found[d], found[BASE], measure) for d in others])
            axes.set_yticks(range(len(others)), [DESIGNS[design] for design in others])
        figure.text(0.02, 0.965, "A league with a winter break or a third cup, against the same "
                    "league as it is", fontsize=13, fontweight="bold", va="center")  # fmt: skip
        figure.text(0.02, 0.93, "ring: one club; bar: median of the clubs and its 95 % interval; "
                    "grey: what the gaps leave open, where nothing can be told",
                    fontsize=TEXT, color=PRINT.soft, va="center")  # fmt: skip
    return figure


def _panel(axes: Axes, measure: Measure, found: Sequence[Difference]) -> None:
    for y, each in enumerate(found):
        if each.blur:
            axes.barh(y, 2 * each.blur, left=-each.blur, height=0.9, color=PRINT.grid, zorder=0)
        axes.plot(each.each, [y] * len(each.each), "o", ms=5, mfc="none", mec=PRINT.soft, mew=0.8)
        axes.plot([each.low, each.high], [y, y], "-", lw=2.5, color=PRINT.accent)
        axes.plot([each.middle], [y], "|", ms=15, mew=2.5, color=PRINT.accent)
    axes.axvline(0, color=PRINT.ink, lw=0.8, zorder=0)
    axes.set_ylim(len(found) - 0.5, -0.5)
    axes.tick_params(labelsize=SMALL, length=0)
    axes.set_title(f"{measure.title}, {measure.unit}", fontsize=TEXT, loc="left", pad=3)
    for side in axes.spines.values():
        side.set_visible(False)


if __name__ == "__main__":
    {"lists": lists, "answer": answer}[sys.argv[1]](Path(sys.argv[2]))
