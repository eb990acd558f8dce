"""Pages made of templates, in which whatever people wrote is text."""

from collections.abc import Mapping
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined


def filled_template(package: str, name: str, told: Mapping[str, Any]) -> str:
    """Return a template of a package's folder ``page``, filled with what is told."""
    pages = Environment(
        loader=PackageLoader(package, "page"), autoescape=True, undefined=StrictUndefined
    )
    return pages.get_template(name).render(told)
