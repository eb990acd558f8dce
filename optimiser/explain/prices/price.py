"""The price of a rule: the match score the season would gain without it."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from joblib import Parallel, delayed, parallel_config

from optimiser.batch.deaf import deaf
from optimiser.change.decided import Decided
from optimiser.change.near import solve_near
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.prices.looser import Change, looser, without_rule
from optimiser.explain.soft_board import soft_board
from optimiser.joint_model.effort import Settings
from optimiser.review.score import PRIORITY_WEIGHT, match_score, readiness
from optimiser.rule import Rule


@dataclass(frozen=True)
class Gain:
    """What one change brings.

    Parameters
    ----------
    points
        Match score gained, never below 0: the plan at hand stays possible. None if no plan was
        found in the time given.
    fixture
        Week (index from 0) and name of the fixture that gains most readiness, weighted by its
        priority; None if none does.
    fixture_points
        Readiness it gains.
    """

    change: Change
    points: float | None
    fixture: tuple[int, str] | None = None
    fixture_points: float = 0.0


@dataclass(frozen=True)
class Price:
    """What one rule costs.

    Parameters
    ----------
    safety
        True if the rule keeps people safe.
    looser
        None if the rule has no step.
    """

    rule: str
    safety: bool
    dropped: Gain
    looser: Gain | None


Told = Callable[[int, int], None]
#: Points up to which a gain may be luck, so that no step of the rule is looked at.
LUCK = 0.05
Job = tuple[Season, list[Rule], Plan, Settings, Decided | None]


def price_rules(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    settings: Settings,
    *,
    processes: int = 2,
    told: Told | None = None,
    decided: Decided | None = None,
) -> list[Price]:
    """Return what every rule costs, the dearest first.

    Parameters
    ----------
    plan
        The season's plan; every search starts from it, and keeps to it where plans are equal.
    processes
        How many searches run at a time; 1 runs them here.
    told
        Called with how many searches are done, and how many were asked for so far.
    decided
        Weeks that stand, in a season in progress.
    """
    search = _Repricing(season, plan, settings, processes, told, decided)
    names = _speaking(season, rules)
    dropped = search.gains([without_rule(rules, name) for name in names])
    dear = [name for name in names if (gain := dropped[name].points) is None or gain > LUCK]
    steps = [step for name in dear if (step := looser(rules, name)) is not None]
    return _ranked(rules, dropped, search.gains(steps))


def price_rule(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    settings: Settings,
    name: str,
    decided: Decided | None = None,
) -> Price:
    """Return what one rule costs; see :func:`price_rules`."""
    search = _Repricing(season, plan, settings, 1, None, decided)
    dropped = search.gains([without_rule(rules, name)])
    points = dropped[name].points
    step = looser(rules, name) if points is None or points > LUCK else None
    mine = [rule for rule in rules if rule.name == name]
    return _ranked(mine, dropped, search.gains([step] if step else []))[0]


def _speaking(season: Season, rules: Sequence[Rule]) -> list[str]:
    """Return the rules that say anything in this season; the others cost nothing."""
    board, _ = soft_board(season, rules)
    said = {tag.rule for tag in board.model.tags()}
    return [rule.name for rule in rules if rule.name in said]


@dataclass
class _Repricing:
    """Plans changed seasons, several at a time."""

    season: Season
    plan: Plan
    settings: Settings
    processes: int
    told: Told | None
    decided: Decided | None = None
    done: int = 0
    started: int = 0

    def gains(self, wanted: Sequence[tuple[Change, list[Rule]]]) -> dict[str, Gain]:
        """Return the gain of each change, by its rule."""
        jobs: list[Job] = [
            (self.season, rules, self.plan, self.settings, self.decided) for _, rules in wanted
        ]
        self.started += len(jobs)
        found = {}
        for place, better in _solved(jobs, self.processes):
            change = wanted[place][0]
            found[change.rule] = _gain(self.season, self.plan, change, better)
            self.done += 1
            if self.told:
                self.told(self.done, self.started)
        return found


def _solved(jobs: Sequence[Job], processes: int) -> Iterator[tuple[int, Plan | None]]:
    """Yield the place of each job and its plan, as they come in."""
    if processes == 1:
        yield from ((place, _work(job)) for place, job in enumerate(jobs))
        return
    with parallel_config("loky", inner_max_num_threads=1):
        crew = Parallel(n_jobs=processes, batch_size=1, return_as="generator_unordered")
        with deaf():
            placed = crew(delayed(_placed)(place, job) for place, job in enumerate(jobs))
        yield from placed


def _placed(place: int, job: Job) -> tuple[int, Plan | None]:
    return place, _work(job)


def near_itself(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    settings: Settings,
    processes: int,
    decided: Decided | None = None,
) -> Plan:
    """Return the best plan a search with these settings finds from ``plan``.

    The search has a process of its own if there may be several, where it cannot keep Ctrl-C from
    this one.
    """
    [(_, better)] = _solved([(season, list(rules), plan, settings, decided)], processes)
    return better or plan


def _work(job: Job) -> Plan | None:
    """Plan one changed season; data goes in and out, never a solver's model."""
    season, rules, plan, settings, decided = job
    return solve_near(season, rules, plan, settings, decided).plan


def _gain(season: Season, plan: Plan, change: Change, better: Plan | None) -> Gain:
    if better is None:
        return Gain(change, None)
    was, now = match_score(season, plan).score or 0.0, match_score(season, better).score or 0.0
    if now <= was:
        return Gain(change, 0.0)
    before, after = readiness(season, plan)[0], readiness(season, better)[0]
    gains = {
        (week.index, fixture.name): (
            PRIORITY_WEIGHT[fixture.priority],
            min(after[week.index], week.target) - min(before[week.index], week.target),
        )
        for week in season.weeks
        for fixture in week.fixtures
    }
    best = max(gains, key=lambda fixture: gains[fixture][0] * gains[fixture][1])
    return Gain(change, now - was, best, gains[best][1])


def _ranked(
    rules: Sequence[Rule], dropped: dict[str, Gain], looser: dict[str, Gain]
) -> list[Price]:
    prices = []
    for rule in rules:
        gone = dropped.get(rule.name) or Gain(Change(rule.name, "dropped"), 0.0)
        step = looser.get(rule.name) or _free_step(rule)
        # what is possible with a looser rule is possible without it
        if step is not None and (step.points or 0.0) > (gone.points or 0.0):
            gone = replace(step, change=gone.change)
        prices.append(Price(rule.name, rule.safety, gone, step))
    return sorted(prices, key=lambda price: -(price.dropped.points or 0.0))


def _free_step(rule: Rule) -> Gain | None:
    """Return the step of a rule that costs nothing, so that no step of it can bring anything."""
    after = rule.loosened()
    return None if after is None else Gain(Change(rule.name, "looser", rule.step_words(after)), 0.0)
