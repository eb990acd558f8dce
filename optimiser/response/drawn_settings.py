"""Seasons whose response is a little other than thought: what nobody knows is drawn by chance."""

from collections.abc import Iterator
from itertools import islice

import numpy as np

from optimiser.domain.quality import Quality
from optimiser.domain.season import Season
from optimiser.response.readiness import rested_top

#: How far a number may be from what it is thought to be, as a share.
SPREAD = 0.2


def drawn_settings(
    season: Season, count: int, seed: int = 0, spread: float = SPREAD
) -> list[Season]:
    """Return the season under so many settings of its response.

    Time constants, gains of bands, fatigue ratios and what a match costs are each up to ``spread``
    more or less than thought, all alike likely and independent. Higher bands never gain less than
    lower ones. A setting in which a full dose would bring no readiness is drawn anew.
    """
    return list(islice(_settings(season, np.random.default_rng(seed), spread), count))


def _settings(season: Season, draw: np.random.Generator, spread: float) -> Iterator[Season]:
    while True:
        qualities = tuple(_quality(quality, draw, spread) for quality in season.qualities)
        cost = {
            name: getattr(season, name) * _factor(draw, spread)
            for name in ("match_fatigue", "match_tau")
        }
        made = season.model_copy(update={"qualities": qualities, **cost})
        if all(_pays(quality, season.fatigue_scale) for quality in qualities):
            yield made


def _quality(quality: Quality, draw: np.random.Generator, spread: float) -> Quality:
    numbers = {
        name: getattr(quality, name) * _factor(draw, spread)
        for name in ("tau_fitness", "tau_fatigue", "fatigue_ratio")
    }
    factors = [_factor(draw, spread) for _ in quality.bands]
    gains = np.maximum.accumulate(
        [band.gain * factor for band, factor in zip(quality.bands, factors, strict=True)]
    )
    bands = tuple(
        band.model_copy(update={"gain": float(gain)})
        for band, gain in zip(quality.bands, gains, strict=True)
    )
    return quality.model_copy(update={"bands": bands, **numbers})


def _factor(draw: np.random.Generator, spread: float) -> float:
    return float(draw.uniform(1 - spread, 1 + spread))


def _pays(quality: Quality, fatigue_scale: float) -> bool:
    try:
        return rested_top(quality, fatigue_scale) > 0
    except ValueError:
        return False
