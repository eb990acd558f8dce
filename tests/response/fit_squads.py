"""Squads whose answer to training is known, because it is made here."""

import datetime as dt

import numpy as np
from two_component import Response

from optimiser.response.record import OPENING, Load, MeasuredResult, Record

FIRST = dt.date(2025, 1, 6)
TRUE = Response(fitness_gain=0.004, fatigue_gain=0.0072, tau_fitness=40, tau_fatigue=9)
LEVEL = 50.0


def daily_loads(rng, days):
    """Return loads of four days a week, in fortnights of very different load."""
    fortnights = np.repeat(rng.uniform(0.2, 2.0, days // 14 + 1), 14)[:days]
    trained = np.arange(days) % 7 < 4
    return np.where(trained, 300 * fortnights * rng.uniform(0.5, 1.5, days), 0.0)


def squad(seed, tests=50, noise=0.03, response=TRUE):
    """Return the record of a squad tested once a week; noise is a share of the results' range."""
    rng = np.random.default_rng(seed)
    loads = daily_loads(rng, 7 * tests)
    before = np.full(500, loads[:OPENING].mean())
    whole = list(np.concatenate([before, loads]))
    days = np.arange(3, 7 * tests, 7)
    curve = LEVEL + np.array([response.performance(whole, 500 + int(day)) for day in days])
    results = curve + rng.normal(0, noise * np.ptp(curve), len(days))
    return Record(loads, days, results)


def listed(record, athlete=""):
    """Return a record as results and loads with dates."""
    results = [
        MeasuredResult(FIRST + dt.timedelta(days=int(day)), float(value), athlete)
        for day, value in zip(record.days, record.results, strict=True)
    ]
    loads = [
        Load(FIRST + dt.timedelta(days=day), float(value), athlete)
        for day, value in enumerate(record.loads)
    ]
    return results, loads
