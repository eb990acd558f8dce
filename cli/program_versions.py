"""Which programs made a plan."""

import platform
from importlib.metadata import PackageNotFoundError, version

PARTS = ("ortools", "highspy", "numpy")


def own_version() -> str:
    """Return the version of this program."""
    return _version("seasonwright")


def versions() -> dict[str, str]:
    """Return the version of this program and of what it computes with, by name."""
    return {
        "seasonwright": own_version(),
        "python": platform.python_version(),
        **{part: _version(part) for part in PARTS},
    }


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:  # run from a checkout that is not installed
        return "0.1.0+checkout" if name == "seasonwright" else "unknown"
