"""Many like sentences as one: chains of weeks and lists of qualities."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

#: Most lines before those of one rule are put together.
MOST = 7
WEEK = re.compile(r"\bweek (\d+)\b")
SEVERAL = re.compile(r"\bweeks \d+(?:-\d+| and \d+)")
VERBS = {" is ": " are ", " has ": " have ", " does ": " do ", " restarts ": " restart "}


@dataclass(frozen=True)
class Said:
    """One sentence about one place.

    Parameters
    ----------
    week
        Index from 0, or None.
    quality
        The quality's name as it stands in the sentence, or None.
    """

    rule: str
    week: int | None
    quality: str | None
    text: str
    safety: bool = False


@dataclass(frozen=True)
class Line:
    """One line for people, and how many sentences it stands for."""

    rule: str
    text: str
    safety: bool
    count: int


def grouped(said: Iterable[Said], most: int | None = MOST) -> list[Line]:
    """Return the sentences in as few lines as they need, in the order of their first week.

    Parameters
    ----------
    most
        Most lines; None for no limit.
    """
    chains: dict[tuple[str, str], list[Said]] = {}
    for each in said:
        chains.setdefault((each.rule, _template(each)), []).append(each)
    lines = [line for chain in chains.values() for line in _lines(chain)]
    if most is not None and len(lines) > most:
        lines = _by_rule(lines)
    if most is not None and len(lines) > most:
        hidden = sum(line.count for line in lines[most - 1 :])
        rest = Line("and more", f"{hidden} more; --all shows them", False, hidden)
        lines = [*lines[: most - 1], rest]
    return lines


def _template(said: Said) -> str:
    """Return the sentence without its quality and its week."""
    text = said.text
    if said.quality:
        text = re.sub(re.escape(said.quality), "{q}", text, count=1, flags=re.IGNORECASE)
    return SEVERAL.sub("{weeks}", WEEK.sub("{week}", text))


def _lines(chain: Sequence[Said]) -> list[Line]:
    """Return one line where every quality has the same weeks, else one a quality."""
    weeks: dict[str | None, list[Said]] = {}
    for each in chain:
        weeks.setdefault(each.quality, []).append(each)
    same: dict[tuple[int | None, ...], list[str | None]] = {}
    for quality, here in weeks.items():
        same.setdefault(tuple(each.week for each in here), []).append(quality)
    return [_line(weeks[qualities[0]], qualities) for qualities in same.values()]


def _line(here: Sequence[Said], qualities: Sequence[str | None]) -> Line:
    first = here[0]
    text = _with_weeks(first.text, here)
    names = [name for name in qualities if name]
    if first.quality and len(names) > 1:
        text = _with_names(text, first.quality, names)
    return Line(first.rule, text, first.safety, len(here) * len(qualities))


def _with_weeks(text: str, here: Sequence[Said]) -> str:
    if len(here) == 1:
        return text
    numbers = [each.week + 1 for each in here if each.week is not None]
    if not SEVERAL.search(text) and len(WEEK.findall(text)) == 1:
        return WEEK.sub(week_words(numbers), text)
    return f"{text}; likewise up to week {max(numbers)}" if numbers else text


def _with_names(text: str, name: str, names: Sequence[str]) -> str:
    at = re.search(re.escape(name), text, re.IGNORECASE)
    if at is None:
        return text
    first = names[0] if at.start() == 0 else names[0].lower()
    told = and_words([first, *(other.lower() for other in names[1:])])
    rest = text[at.end() :]
    if at.start() == 0:
        verb = next((verb for verb in VERBS if rest.startswith(verb)), None)
        rest = rest.replace(verb, VERBS[verb], 1) if verb else rest
    return text[: at.start()] + told + rest


def _by_rule(lines: Sequence[Line]) -> list[Line]:
    rules: dict[str, list[Line]] = {}
    for line in lines:
        rules.setdefault(line.rule, []).append(line)
    out = []
    for rule, here in rules.items():
        more = sum(line.count for line in here[1:])
        text = here[0].text + (f"; and {more} more of this rule" if more else "")
        out.append(Line(rule, text, here[0].safety, sum(line.count for line in here)))
    return out


def and_words(words: Sequence[str]) -> str:
    """Return ``a``, ``a and b`` or ``a, b and c``."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def week_words(numbers: Iterable[int]) -> str:
    """Return ``week 3``, ``weeks 3-5`` or ``weeks 3-5 and 8``; weeks from 1."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs]
    one = len(runs) == 1 and len(runs[0]) == 1
    return f"week{'' if one else 's'} {and_words(told)}"
