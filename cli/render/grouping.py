"""Many like sentences as one: chains of weeks and lists of qualities."""

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass

from optimiser.domain.sentence import Sentence

#: Most lines before those of one rule are put together.
MOST = 7


@dataclass(frozen=True)
class Said:
    """One sentence of a rule about one place."""

    rule: str
    says: Sentence
    safety: bool = False


@dataclass(frozen=True)
class GroupedLine:
    """One line for people, and how many sentences it stands for."""

    rule: str
    text: str
    safety: bool
    count: int


def grouped(said: Iterable[Said], most: int | None = MOST) -> list[GroupedLine]:
    """Return the sentences in as few lines as they need, in the order of their first week.

    Parameters
    ----------
    most
        Most lines; None for no limit.
    """
    chains: dict[Hashable, list[Said]] = {}
    for each in said:
        chains.setdefault((each.rule, each.safety, each.says.alike), []).append(each)
    lines = [line for chain in chains.values() for line in _lines(chain)]
    if most is not None and len(lines) > most:
        lines = _by_rule(lines)
    if most is not None and len(lines) > most:
        hidden = sum(line.count for line in lines[most - 1 :])
        rest = GroupedLine("and more", f"{hidden} more; --all shows them", False, hidden)
        lines = [*lines[: most - 1], rest]
    return lines


def _lines(chain: Sequence[Said]) -> list[GroupedLine]:
    """Return one line where every quality has the same weeks, else one a quality."""
    weeks: dict[str, list[Said]] = {}
    for each in chain:
        weeks.setdefault(each.says.quality, []).append(each)
    same: dict[tuple[int | None, ...], list[str]] = {}
    for quality, here in weeks.items():
        same.setdefault(tuple(each.says.week for each in here), []).append(quality)
    return [_line(weeks[qualities[0]], qualities) for qualities in same.values()]


def _line(here: Sequence[Said], qualities: Sequence[str]) -> GroupedLine:
    first = here[0]
    weeks = [each.says.week for each in here if each.says.week is not None]
    if len(here) == 1 or first.says.chains:
        text = first.says.told(weeks, qualities)
    else:
        text = first.says.told(weeks[:1], qualities)
        text += f"; likewise up to week {max(weeks) + 1}" if weeks else ""
    return GroupedLine(first.rule, text, first.safety, len(here) * len(qualities))


def _by_rule(lines: Sequence[GroupedLine]) -> list[GroupedLine]:
    rules: dict[str, list[GroupedLine]] = {}
    for line in lines:
        rules.setdefault(line.rule, []).append(line)
    out = []
    for rule, here in rules.items():
        more = sum(line.count for line in here[1:])
        text = here[0].text + (f"; and {more} more of this rule" if more else "")
        out.append(GroupedLine(rule, text, here[0].safety, sum(line.count for line in here)))
    return out
