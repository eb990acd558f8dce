"""A plan that does best where the response is not as thought: in the worst tenth of settings.

Instead of what the great matches lack under the response as it is thought, the cost counts the mean
of what they lack in the worst tenth of settings drawn by chance (conditional value at risk:
Rockafellar and Uryasev 2000, Journal of Risk 2(3): 21-41, from memory). That is never less than the
mean over any tenth of the settings, so rows that ask for a few tenths give a bound; the tenth that
a plan found is worst in is added until its own cost is near that bound.
"""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from optimiser.board.board import Board
from optimiser.change.decided import Decided
from optimiser.change.freeze import board_from
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.joint_model.cost import season_cost, whole_readiness
from optimiser.joint_model.cost_rows import price_season
from optimiser.joint_model.drive import drive_model, session_counts, weekly
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.ready_terms import ready_terms
from optimiser.response.drawn_settings import drawn_settings
from optimiser.response.readiness import UNITS, kernel
from optimiser.rule import Rule

#: Settings drawn, the share of them that is worst, and how often a worst tenth is added.
DRAWN, WORST, ROUNDS = 64, 0.1, 4


@dataclass(frozen=True)
class Steady:
    """A plan for the worst tenth of settings.

    Parameters
    ----------
    cost, before
        Its cost and that of the usual plan, the great matches counted in the worst tenth.
    bound
        No plan that keeps the rules costs less.
    ready, ready_before
        Mean readiness at each great match in its worst tenth of settings, by week from 0: of this
        plan and of the usual one.
    settings
        How many settings were drawn.
    """

    plan: Plan
    cost: int
    before: int
    bound: float
    ready: dict[int, float]
    ready_before: dict[int, float]
    settings: int
    seconds: float

    @property
    def gap(self) -> float:
        """Return how far the plan may be from the best one, as a share of its cost."""
        return max(0.0, (self.cost - self.bound) / max(1, self.cost))


@dataclass(frozen=True)
class _Asked:
    """A season, its rules, what counts, and the settings drawn."""

    season: Season
    rules: Sequence[Rule]
    settings: Settings
    drawn: Sequence[Season]

    @cached_property
    def weeks(self) -> list[int]:
        """Return the weeks of the matches that matter most, from 0."""
        great = [w.index for w in self.season.weeks if any(f.priority.great for f in w.fixtures)]
        played = [w.index for w in self.season.weeks if w.fixtures]
        return great or played[-1:] or [self.season.weeks[-1].index]

    @property
    def tenth(self) -> int:
        """Return how many settings are the worst tenth."""
        return max(1, round(WORST * len(self.drawn)))

    def ready(self, plan: Plan) -> npt.NDArray[np.float64]:
        """Return readiness at those weeks under every setting, shape ``(settings, weeks)``."""
        every = [whole_readiness(each, plan) for each in self.drawn]
        return np.array(every)[:, self.weeks] / UNITS

    def lacking(self, plan: Plan) -> npt.NDArray[np.int64]:
        """Return what those weeks cost under every setting, shape ``(settings,)``."""
        goals = np.array([self.goal(week) for week in self.weeks])
        short = np.maximum(0, goals - np.rint(self.ready(plan) * UNITS).astype(np.int64))
        weights = [self.weight(week) for week in self.weeks]
        found: npt.NDArray[np.int64] = short @ np.array(weights)
        return found

    def worst(self, plan: Plan) -> tuple[int, ...]:
        """Return the settings in which a plan lacks most."""
        order = np.argsort(-self.lacking(plan), kind="stable")
        return tuple(sorted(int(each) for each in order[: self.tenth]))

    def cost(self, plan: Plan) -> int:
        """Return the season cost with those weeks counted in the worst tenth of settings."""
        whole = season_cost(self.season, self.rules, plan, self.settings.rates).total
        usual = _Asked(self.season, self.rules, self.settings, [self.season])
        lacking = np.sort(self.lacking(plan))[-self.tenth :]
        return int(whole - usual.lacking(plan)[0] + np.ceil(lacking.mean()))

    def goal(self, week: int) -> int:
        """Return the readiness below which a week costs something."""
        target = self.season.weeks[week].target
        return round(target * UNITS) - round(self.settings.rates.below * UNITS)

    def weight(self, week: int) -> int:
        """Return the weight of a week."""
        return self.settings.rates.week(self.season.weeks[week])


def steady_plan(
    season: Season,
    rules: Sequence[Rule],
    usual: Plan,
    settings: Settings,
    decided: Decided | None = None,
    *,
    drawn: int = DRAWN,
) -> Steady:
    """Return the plan that does best in the worst tenth of drawn settings, with a bound.

    Parameters
    ----------
    usual
        The best plan under the response as it is thought; the search starts from it.
    """
    began = time.perf_counter()
    asked = _Asked(season, rules, settings, drawn_settings(season, drawn, settings.seed))
    board = board_from(season, rules, decided)
    held = board.hint(usual)
    price_season(board, settings.rates)
    tenth = _without_great(board, asked.weeks)
    best, bound, known = usual, 0.0, set[tuple[int, ...]]()
    now = usual
    for _ in range(ROUNDS):
        worst = asked.worst(now)
        if worst in known:
            break
        known.add(worst)
        _ask(board, asked, worst, tenth)
        found = drive_model(
            board.model, held, weekly(board), settings, None, session_counts(board), known=True
        )
        if not found.values:
            break
        now, bound = board.read(found.values), max(bound, found.bound)
        best = min(best, now, key=asked.cost)
        if asked.cost(best) - bound <= settings.close * asked.cost(best):
            break
    return Steady(
        plan=best,
        cost=asked.cost(best),
        before=asked.cost(usual),
        bound=bound,
        ready=_tail(asked, best),
        ready_before=_tail(asked, usual),
        settings=drawn,
        seconds=time.perf_counter() - began,
    )


def _without_great(board: Board, weeks: Sequence[int]) -> int:
    """Take what great matches lack out of a priced board; return what is to stand for it."""
    model = board.model
    names = {f"short[{week}]" for week in weeks}
    for var in [var for var in model.cost if model.names[var] in names]:
        del model.cost[var]
    tenth = model.var(0, 1000 * 200 * UNITS, "worst tenth")
    model.fine.add(tenth)
    model.cost[tenth] = 1
    return tenth


def _ask(board: Board, asked: _Asked, worst: Sequence[int], tenth: int) -> None:
    """Hold the cost to the mean of what is lacking in some settings."""
    model, shorts = board.model, {}
    for setting in worst:
        tables, background = kernel(asked.drawn[setting]).whole()
        for week in asked.weeks:
            least = asked.goal(week) - int(background[week])
            short = model.var(0, 400 * UNITS, f"short[{week}] in setting {setting}")
            model.fine.add(short)
            terms = ready_terms(board, tables, week)
            model.at_least({**terms, short: 1}, least)
            shorts[short] = -asked.weight(week)
    model.at_least({**shorts, tenth: len(worst)}, 0)


def _tail(asked: _Asked, plan: Plan) -> dict[int, float]:
    """Return the mean readiness at each great match in its own worst tenth of settings."""
    ready = np.sort(asked.ready(plan), axis=0)[: asked.tenth].mean(axis=0)
    return dict(zip(asked.weeks, map(float, ready), strict=True))
