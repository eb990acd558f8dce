"""Sentences of rules made smooth: ``1 session(s)`` becomes ``1 session``."""

import re

COUNTED = re.compile(r"\b(\d+)((?: [a-z-]+)*? [a-z]+)\((e?s)\)")
LEFT = re.compile(r"\((e?s)\)")
NAMES = {"near_top_speed_m": "m near top speed", "hard_sets": "hard sets"}


def tidy(text: str) -> str:
    """Return the sentence with its plurals settled and its amounts in words."""
    text = COUNTED.sub(_counted, text)
    text = LEFT.sub(r"\1", text)
    for name, words in NAMES.items():
        text = text.replace(name, words)
    return text


def _counted(found: re.Match[str]) -> str:
    number, words, ending = found.groups()
    return f"{number}{words}{'' if number == '1' else ending}"
