"""What rules and their parameters are called on the page."""

from constraints import CATALOGUE


def rule_title(name: str) -> str:
    """Return what people call a rule."""
    known = CATALOGUE[name].title if name in CATALOGUE else ""
    return known or field_words(name).capitalize()


def field_words(path: str) -> str:
    """Return what people call a parameter: ``in_season.gym`` is ``in season, gym``."""
    return ", ".join(part.replace("_", " ") for part in path.split("."))
