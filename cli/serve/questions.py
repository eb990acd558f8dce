"""Questions about the plan that take long, answered in the searching process."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cli.render.rule_words import rule_title
from cli.render.why import answer_text
from cli.serve.jobs import Failed, Tell, Told
from cli.serve.lines import page_lines
from optimiser.change.decided import Decided
from optimiser.change.trade import TradeOff, trade_off
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.explain.prices.price import Gain, Price, near_itself, price_rule
from optimiser.explain.why.answer import why_not
from optimiser.explain.why.asked import Asked
from optimiser.joint_model.effort import Settings
from optimiser.rule import Rule

#: Seconds for what another choice costs.
PATIENCE = 20.0
UNKNOWN = "No answer in the time given."
#: Gain that a short search may owe to luck, in points of match score.
LUCK = 0.1


@dataclass(frozen=True)
class Reply:
    """An answer in lines, and what it is about.

    Parameters
    ----------
    about
        What the page asked, so that it can be shown in its place.
    """

    about: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Ways:
    """Plans from the least change to the best, from here on."""

    trade: TradeOff


@dataclass(frozen=True)
class CostJob:
    """What another choice in one place would mean."""

    about: str
    season: Season
    rules: Sequence[Rule]
    plan: Plan
    asked: Asked
    settings: Settings
    decided: Decided | None = None

    def run(self, tell: Tell) -> object:
        """Return the answer in words."""
        short = replace(self.settings, seconds=PATIENCE / 2)
        found = why_not(self.season, self.rules, self.plan, self.asked, short, decided=self.decided)
        if found == "unknown":
            return Reply(self.about, (UNKNOWN,))
        text = answer_text(self.season, self.asked, found)
        return Reply(self.about, tuple(page_lines(text)))


@dataclass(frozen=True)
class PriceJob:
    """What one rule costs."""

    about: str
    season: Season
    rules: Sequence[Rule]
    plan: Plan
    rule: str
    settings: Settings
    decided: Decided | None = None

    def run(self, tell: Tell) -> object:
        """Return the price in words; the plan is searched from itself first, to be fair."""
        short = replace(self.settings, quick=True, workers=1)
        tell(Told("Searching once more with the rule"))
        plan = near_itself(self.season, self.rules, self.plan, short, 1, self.decided)
        tell(Told("Searching without the rule"))
        price = price_rule(self.season, self.rules, plan, short, self.rule, self.decided)
        return Reply(self.about, tuple(_price_lines(price)))


@dataclass(frozen=True)
class WaysJob:
    """The trade-off between little change and the best plan."""

    season: Season
    rules: Sequence[Rule]
    old: Plan
    decided: Decided
    settings: Settings

    def run(self, tell: Tell) -> object:
        """Return the plans on it."""
        found = trade_off(self.season, self.rules, self.old, self.decided, self.settings)
        if found.status != "planned":
            return Failed("No plan from here on keeps the rules.")
        return Ways(found)


def _price_lines(price: Price) -> list[str]:
    title = rule_title(price.rule)
    lines = [f"Without \u201c{title}\u201d: {_gain(price.dropped)}"]
    if price.looser is not None:
        lines.append(f"One step looser ({price.looser.change.step}): {_gain(price.looser)}")
    if price.safety:
        lines.append("It keeps people safe: its price is no reason to drop it.")
    return lines


def _gain(gain: Gain) -> str:
    if gain.points is None:
        return "no plan was found in the time for it."
    if gain.points < LUCK:
        return "no gain that a short search can tell from luck."
    at = ""
    if gain.fixture is not None:
        week, name = gain.fixture
        points = f"{gain.fixture_points:.1f} points of readiness"
        at = f", most at {name} (week {number_of(week)}): {points}"
    return f"the match score gains {gain.points:.1f}{at}."
