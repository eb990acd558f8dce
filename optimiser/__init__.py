"""Plans a season around its fixtures: the names here are for use as a library (docs/library.md).

Each is imported when it is first asked for, as solvers take long to import.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from optimiser.explain.clash import find_clash
    from optimiser.joint_model.solve import solve_season
    from optimiser.review.audit import audit_plan
    from optimiser.review.score import match_score
    from optimiser.setup.build import build_season
    from optimiser.setup.reading import read_scenario

_HOMES = {
    "audit_plan": "optimiser.review.audit",
    "build_season": "optimiser.setup.build",
    "find_clash": "optimiser.explain.clash",
    "match_score": "optimiser.review.score",
    "read_scenario": "optimiser.setup.reading",
    "solve_season": "optimiser.joint_model.solve",
}

__all__ = [
    "audit_plan",
    "build_season",
    "find_clash",
    "match_score",
    "read_scenario",
    "solve_season",
]


def __getattr__(name: str) -> Any:
    """Return a name of the library from where it lives."""
    if name not in _HOMES:
        raise AttributeError(f"module 'optimiser' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
