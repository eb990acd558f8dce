"""What rules and their parameters are called on the page."""

import re
from typing import Any

from constraints import CATALOGUE
from constraints.blocks import Blocks
from constraints.pin import Pin
from optimiser.domain.wording import weeks_listed

#: What is said of the weeks in which blocks are to begin, or not to.
BORDERS = {
    "begin": ("A block begins in {}", "No week is asked to begin a block"),
    "go_on": ("No block begins in {}", "Blocks may begin in any week"),
}


def rule_title(name: str) -> str:
    """Return what people call a rule."""
    known = CATALOGUE[name].title if name in CATALOGUE else ""
    return known or field_words(name).capitalize()


def field_words(path: str) -> str:
    """Return what people call a parameter: ``in_season.gym`` is ``in season, gym``."""
    return ", ".join(part.replace("_", " ") for part in path.split("."))


#: A rule's parameter as files name it: ``spacing.latest``, but not a file called so.
_KEY = re.compile(rf"\b(?:{'|'.join(CATALOGUE)})\.(?!csv|xlsx|ods|ics|toml|json)(\w+(?:\.\w+)*)")


def without_keys(words: str) -> str:
    """Return words in which parameters are called as on the page, and not as in files."""
    return _KEY.sub(lambda found: field_words(found[1]), words)


def parameter_words(rule: str, parameter: str, value: Any) -> str:
    """Return what a parameter is set to, as a sentence."""
    title = rule_title(rule)
    if parameter == "waive":
        return f"{title}: {len(value)} place{'' if len(value) == 1 else 's'} let off"
    if rule == Pin.name and parameter == "choices":
        return f"{len(value)} choice{'' if len(value) == 1 else 's'} held"
    if rule == Blocks.name and parameter in BORDERS:
        form, none = BORDERS[parameter]
        return form.format(weeks_listed(map(int, value))) if value else none
    return f"{title}: {field_words(parameter)} {_value(value)}"


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    if value is None:
        return "as usual"
    if value in ([], ()):
        return "none"
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)
