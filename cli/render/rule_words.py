"""Rules and their parameters as a coach calls them."""

import re
from typing import Any

from constraints import CATALOGUE


def asked_by(name: str) -> str:
    """Return what a rule asks for, and its name: ``lighter weeks (rule deload)``."""
    rule = CATALOGUE.get(name)
    return f"{rule.asks} (rule {name})" if rule and rule.asks else f"the rule {name}"


def rule_title(name: str) -> str:
    """Return what people call a rule."""
    known = CATALOGUE[name].title if name in CATALOGUE else ""
    return known or name.replace("_", " ").capitalize()


def parameter_label(rule: str, path: str) -> str:
    """Return what people call a parameter, and an entry of one that is a table.

    ``gap_weeks.sprint`` is ``Once in so many weeks: sprint``.
    """
    labels = CATALOGUE[rule].labels if rule in CATALOGUE else {}
    return ": ".join(labels.get(part, part.replace("_", " ")) for part in path.split("."))


def choice_label(rule: str, path: str, choice: str) -> str:
    """Return what one of the choices for a parameter is called."""
    labels = CATALOGUE[rule].labels if rule in CATALOGUE else {}
    return labels.get(f"{path}={choice}", choice.replace("_", " "))


def quoted_label(rule: str, path: str) -> str:
    """Return what a parameter is called, inside a sentence; anything else as it is."""
    known = rule in CATALOGUE and path.split(".")[0] in CATALOGUE[rule].labels
    return f'"{parameter_label(rule, path)}"' if known else path


#: A rule's parameter as files name it: ``spacing.latest``, but not a file called so.
_KEY = re.compile(rf"\b({'|'.join(CATALOGUE)})\.(?!csv|xlsx|ods|ics|toml|json)(\w+(?:\.\w+)*)")


def without_keys(words: str) -> str:
    """Return words in which parameters are called as on the page, and not as in files."""
    return _KEY.sub(lambda found: quoted_label(found[1], found[2]), words)


def parameter_words(rule: str, parameter: str, value: Any) -> str:
    """Return what a parameter is set to, as a sentence."""
    title = rule_title(rule)
    if parameter == "waive":
        return f"{title}: {len(value)} place{'' if len(value) == 1 else 's'} let off"
    own = CATALOGUE[rule].setting_words(parameter, value) if rule in CATALOGUE else ""
    if own:
        return own
    label = parameter_label(rule, parameter)
    told = choice_label(rule, parameter, value) if isinstance(value, str) else _value(value)
    return f"{title}: {label[:1].lower()}{label[1:]}: {told}"


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    if value is None:
        return "as usual"
    if value in ([], ()):
        return "none"
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)
