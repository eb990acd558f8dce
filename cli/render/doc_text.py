"""What the docstring of a rule says, taken apart."""

import inspect
import re
from collections.abc import Callable

SECTION = re.compile(r"^(\w[\w ]*)\n-+\n", re.MULTILINE)
NAME = re.compile(r"``(.+?)``", re.DOTALL)


def summary(kind: type) -> str:
    """Return the first paragraph of a class's docstring as one line."""
    return " ".join(_cleaned(kind).split("\n\n")[0].split())


def details(kind: type) -> str:
    """Return what stands between the first paragraph and the parameters, as one paragraph."""
    body = SECTION.split(_cleaned(kind))[0]
    return " ".join(" ".join(body.split("\n\n")[1:]).split())


def parameters(kind: type, called: Callable[[str], str] = str) -> dict[str, str]:
    """Return what the docstrings of a class and its bases say about each parameter, by name.

    Parameters
    ----------
    called
        What a parameter is called that another one's words speak of.
    """
    told: dict[str, str] = {}
    for base in reversed(kind.__mro__):
        told |= _own_parameters(base, called)
    return told


def _own_parameters(kind: type, called: Callable[[str], str]) -> dict[str, str]:
    parts = SECTION.split(_cleaned(kind, called))
    sections = dict(zip(parts[1::2], parts[2::2], strict=True))
    told: dict[str, str] = {}
    names: list[str] = []
    for line in sections.get("Parameters", "").splitlines():
        if line and not line.startswith(" "):
            names = [name.strip() for name in line.split(",")]
            told |= dict.fromkeys(names, "")
        elif line.strip():
            told |= {name: f"{told[name]} {line.strip()}".strip() for name in names}
    return told


def _cleaned(kind: type, called: Callable[[str], str] = str) -> str:
    return NAME.sub(lambda found: called(found[1]), inspect.cleandoc(kind.__doc__ or ""))
