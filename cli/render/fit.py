"""What was estimated from tests and load, as a table, a piece of a scenario and JSON."""

from collections.abc import Mapping
from typing import Any

from cli.render.terminal import filled, table_text
from optimiser.response.fit import Fit
from optimiser.response.fragment import scenario_ratio
from optimiser.response.interval import Interval

HEADS = ("quality", "tests", "days", "fitness d", "fatigue d", "k2 / k1", "error", "last again")
NOTE = (
    "In brackets the stretch that holds the true value in nine of ten squads like this one. Error: "
    "how far a test that was left out lay from what the fit foretold, and from the result before "
    "it. Fits of this kind are hard to pin down and drift: do it again each block, and trust none "
    "that does not agree with what you see."
)


def fit_table(fits: Mapping[str, Fit]) -> str:
    """Return a row a quality, and below it why estimates are refused."""
    table = table_text([_row(key, fit) for key, fit in fits.items()], HEADS, lined=True)
    return "\n\n".join([table, filled(NOTE), *refusals(fits)])


def refusals(fits: Mapping[str, Fit]) -> list[str]:
    """Return one paragraph a quality that is refused."""
    return [
        "\n".join([f"Refused: {key}", *(f"  - {reason}" for reason in fit.reasons)])
        for key, fit in fits.items()
        if fit.reasons
    ]


def _row(key: str, fit: Fit) -> list[str]:
    of = f" of {fit.athletes}" if fit.athletes else ""
    first = [key, f"{fit.tests}{of}", str(fit.days)]
    if fit.estimate is None or fit.intervals is None or fit.forecast is None:
        return [*first, "-", "-", "-", "-", "-"]
    found, made = fit.estimate, fit.intervals
    return [
        *first,
        _told(found.tau_fitness, made["tau_fitness"], 0),
        _told(found.tau_fatigue, made["tau_fatigue"], 1),
        _told(found.ratio, made["ratio"], 2),
        f"{fit.forecast.model:.3g}",
        f"{fit.forecast.naive:.3g}",
    ]


def _told(value: float, around: Interval, digits: int) -> str:
    return f"{value:.{digits}f} ({around.low:.{digits}f}-{around.high:.{digits}f})"


def fit_toml(fits: Mapping[str, Fit], fatigue_scale: float) -> str:
    """Return the estimates that stand as tables of a scenario."""
    parts = ["# Time constants estimated from a squad's own tests and load. Copy into a scenario."]
    parts += [_table(key, fit, fatigue_scale) for key, fit in fits.items() if _stands(fit)]
    return "\n\n".join(parts) + "\n"


def _stands(fit: Fit) -> bool:
    return fit.estimate is not None and not fit.reasons


def _table(key: str, fit: Fit, fatigue_scale: float) -> str:
    assert fit.estimate is not None
    assert fit.intervals is not None
    slow, fast = fit.intervals["tau_fitness"], fit.intervals["tau_fatigue"]
    ratio = fit.intervals["ratio"]
    found = fit.estimate
    return "\n".join(
        [
            f"# {fit.tests} tests over {fit.days} days, with nine-in-ten intervals",
            f"[qualities.{key}]",
            f"tau_fitness = {found.tau_fitness:.1f}  # {slow.low:.1f} to {slow.high:.1f} days",
            f"tau_fatigue = {found.tau_fatigue:.1f}  # {fast.low:.1f} to {fast.high:.1f} days",
            f"fatigue_ratio = {scenario_ratio(fit, fatigue_scale):.2f}  "
            f"# {ratio.low / fatigue_scale:.2f} to {ratio.high / fatigue_scale:.2f}, "
            f"at a fatigue_scale of {fatigue_scale:g}",
        ]
    )


def fit_data(fits: Mapping[str, Fit]) -> dict[str, Any]:
    """Return everything by quality, as plain data; nothing is infinite in it."""
    return {key: _data(fit) for key, fit in fits.items()}


def _data(fit: Fit) -> dict[str, Any]:
    made: dict[str, Any] = {"tests": fit.tests, "days": fit.days, "reasons": list(fit.reasons)}
    if fit.estimate is None or fit.intervals is None or fit.forecast is None:
        return made
    names = ("tau_fitness", "tau_fatigue", "fitness_gain", "fatigue_gain", "level")
    made |= {name: getattr(fit.estimate, name) for name in names}
    made["intervals"] = {
        name: [_finite(around.low), _finite(around.high)] for name, around in fit.intervals.items()
    }
    made["error"] = {"model": fit.forecast.model, "naive": fit.forecast.naive}
    return made


def _finite(value: float) -> float | None:
    return None if value == float("inf") else value
