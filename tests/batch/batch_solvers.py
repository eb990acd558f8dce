"""Solvers handed to workers by name: the real one, and ones that come to grief."""

import os
import signal
from dataclasses import replace

from optimiser.batch.job import season_solver
from optimiser.joint_model.solve import Outcome


def grief(season, rules, *, seed, start, decided):
    """Do what the season's name says."""
    if season.name == "kill":
        os.kill(os.getpid(), signal.SIGKILL)
    if season.name == "memory":
        raise MemoryError
    if season.name == "error":
        raise RuntimeError("the board is on fire")
    if season.name == "late":
        return Outcome("out_of_time", None, (), 1.5)
    return season_solver(season, rules, seed=seed, start=start)


def repeat_start(season, rules, *, seed, start, decided):
    """Give back the plan it was told to start from, if any, as if it took a minute."""
    if start is None:
        return season_solver(season, rules, seed=seed, start=None)
    return replace(season_solver(season, rules, seed=seed, start=start), plan=start, seconds=60.0)


def where(season, rules, *, seed, start, decided):
    """Tell, as an error, which process it ran in."""
    raise RuntimeError(f"pid {os.getpid()}")
