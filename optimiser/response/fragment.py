"""An estimate becomes a piece of a scenario."""

from optimiser.domain.quality import Quality
from optimiser.response.fit import MOST_RATIO, Fit
from optimiser.response.readiness import rested_top


def scenario_ratio(fit: Fit, fatigue_scale: float) -> float:
    """Return ``fatigue_ratio`` as a scenario means it: its product with the scale is k2 / k1."""
    assert fit.estimate is not None
    return fit.estimate.ratio / fatigue_scale


def refused_by(quality: Quality, fit: Fit, fatigue_scale: float) -> str:
    """Return why a quality cannot take the estimate, or nothing if it can."""
    assert fit.estimate is not None
    ratio = scenario_ratio(fit, fatigue_scale)
    if ratio > MOST_RATIO:
        return f"fatigue outweighs what load gives by {fit.estimate.ratio:.1f} to 1"
    changed = quality.model_copy(
        update={
            "tau_fitness": fit.estimate.tau_fitness,
            "tau_fatigue": fit.estimate.tau_fatigue,
            "fatigue_ratio": ratio,
        }
    )
    try:
        rested_top(changed, fatigue_scale)
    except ValueError as error:
        return str(error)
    return ""
