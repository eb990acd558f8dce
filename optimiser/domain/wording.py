"""Lists, weeks and counts as people say them."""

from collections.abc import Iterable, Sequence


def listed(words: Sequence[str]) -> str:
    """Return ``a``, ``a and b`` or ``a, b and c``."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def weeks_listed(numbers: Iterable[int]) -> str:
    """Return ``week 3``, ``weeks 3-5`` or ``weeks 3-5 and 8``; weeks from 1."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs]
    one = len(runs) == 1 and len(runs[0]) == 1
    return f"week{'' if one else 's'} {listed(told)}"


def counted(number: int, word: str) -> str:
    """Return ``1 session`` or ``2 sessions``."""
    return f"{number} {word if number == 1 else plural(word)}"


def plural(word: str) -> str:
    """Return the plural of a noun, or of the last word of several."""
    if word.endswith(("ch", "sh", "s", "x")):
        return f"{word}es"
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return f"{word[:-1]}ies"
    return f"{word}s"
