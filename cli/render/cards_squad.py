"""The sessions of a squad as plain text: each told once, what is an athlete's own in a table."""

import textwrap
from collections import Counter
from collections.abc import Hashable, Iterable, Sequence

from cli.render.cards import RULE, block_text, care_text, line_words
from cli.render.cards_words import (
    ABOUT,
    ABOUT_WORDS,
    block_words,
    number_words,
    own,
    rest_words,
    session_words,
    standing_words,
    week_words,
    work_words,
)
from cli.render.terminal import bullet, hanging, table_text
from optimiser.athlete.card import Block, Card, Line, Rising, SessionCard

#: Columns of athletes' own numbers in one table, and their width.
COLUMNS, COLUMN, NAME = 5, 13, 22
SEE_TABLE = "see table"

Done = tuple[Card, SessionCard]


def squad_text(cards: Sequence[Card]) -> str:
    """Return every session of the week once, then what is to be said of single athletes."""
    weeks = dict.fromkeys(week_words(card) for card in cards)
    sessions = [_session(found) for found in _sessions(cards)] or ["No session this week."]
    about = [bullet(f"{card.athlete}: {note}") for card in cards for note in card.notes]
    people = ["\n".join(["Athletes", *about])] if about else []
    names = ", ".join(card.athlete for card in cards)
    heading = "\n".join(map(hanging, [*weeks, f"For {names}"]))
    return "\n\n".join(
        [heading, *(f"{RULE}\n{text}" for text in sessions), *people, care_text(cards)]
    )


def _sessions(cards: Sequence[Card]) -> list[list[Done]]:
    """Return the sessions by date and place, each with those who are to do them."""
    found: dict[tuple[str, str], list[Done]] = {}
    for card in cards:
        for session in card.sessions:
            found.setdefault((str(session.date), session.place), []).append((card, session))
    return [found[key] for key in sorted(found)]


def _session(planned: Sequence[Done]) -> str:
    found = [(card, session) for card, session in planned if not session.away]
    away = [card.athlete for card, session in planned if session.away]
    gone = bullet(f"away: {', '.join(away)}") if away else ""
    if not found:
        return "\n".join([hanging(session_words(planned[0][1])), gone])
    usual = _usual(found)
    first = _first([session for _, session in found])
    others = [*_at_own_times(found, first), *_others(found, usual)]
    numbers = _numbers(found, usual)
    parts = [
        hanging(f"{session_words(first)}: {_who(found)}"),
        *(_block(block, found) for block in usual.values()),
        numbers,
        bullet(ABOUT_WORDS) if ABOUT in numbers else "",
        "\n".join(others),
        gone,
        hanging(first.pain),
    ]
    return "\n".join(filter(None, parts))


def _first(sessions: Sequence[SessionCard]) -> SessionCard:
    """Return the longest, one at the squad's own time if any is."""
    return max(sessions, key=lambda session: (not session.own_time, session.minutes))


def _at_own_times(found: Sequence[Done], first: SessionCard) -> Iterable[str]:
    """Yield who does it at another time, as they are at school."""
    others = [(card, session) for card, session in found if session.start != first.start]
    for start in dict.fromkeys(session.start for _, session in others):
        names = [card.athlete for card, session in others if session.start == start]
        yield bullet(f"{', '.join(names)}: at {start}, outside of hours of school")


def _who(found: Sequence[Done]) -> str:
    return f"{len(found)} athletes" if len(found) > 1 else found[0][0].athlete


def _usual(found: Sequence[Done]) -> dict[str, Block]:
    """Return by name the block that most athletes do, in the order of a session."""
    names = dict.fromkeys(block.name for _, session in found for block in session.blocks)
    order = sorted(names, key=lambda name: (name == "Finish", name != "Warm-up"))
    usual = {}
    for name in order:
        blocks = [block for _, session in found for block in session.blocks if block.name == name]
        ((shape, _),) = Counter(map(_shape, blocks)).most_common(1)
        usual[name] = next(block for block in blocks if _shape(block) == shape)
    return usual


def _shape(block: Block) -> Hashable:
    """Return all of a block but what is an athlete's own about it."""
    lines = tuple((line.key, work_words(line), line.rest_s) for line in block.lines)
    return block.name, block.step, block.work, lines


def _block(block: Block, found: Sequence[Done]) -> str:
    if not own(block):
        return hanging(f"{block_words(block)}. {standing_words(block)}")
    rows = [
        [
            f"{line.exercise}\n{line.cue}",
            work_words(line),
            _load(block, line, found),
            rest_words(line),
        ]
        for line in block.lines
    ]
    lines = tuple(line.model_copy(update={"rising": _bare(line)}) for line in block.lines)
    shared = block.model_copy(update={"lines": lines, "notes": _shared_notes(block, found)})
    return block_text(shared, rows)


def _bare(line: Line) -> tuple[Rising, ...]:
    return tuple(each.model_copy(update={"kg": None}) for each in line.rising)


def _shared_notes(block: Block, found: Sequence[Done]) -> tuple[str, ...]:
    """Return the notes that all who do the block have."""
    doing = [set(other.notes) for other in _doing(block, found)]
    return tuple(note for note in block.notes if all(note in each for each in doing))


def _doing(block: Block, found: Sequence[Done]) -> list[Block]:
    shape = _shape(block)
    return [other for _, s in found for other in s.blocks if _shape(other) == shape]


def _load(block: Block, line: Line, found: Sequence[Done]) -> str:
    """Return the load where all have the same, else its percentage and where to look."""
    told = {number_words(each) for each in _lines(block, line, found)}
    if len(told) == 1:
        return told.pop()
    share = (
        f"{line.percent[0]:g} %, " if line.percent and line.percent[0] == line.percent[1] else ""
    )
    left = f"leave {line.reserve[0]:g}, " if line.reserve else ""
    return f"{share}{left}{SEE_TABLE}"


def _lines(block: Block, line: Line, found: Sequence[Done]) -> Iterable[Line]:
    for other in _doing(block, found):
        yield from (each for each in other.lines if each.key == line.key)


def _numbers(found: Sequence[Done], usual: dict[str, Block]) -> str:
    """Return the athletes' own numbers, as few tables as there is room for."""
    columns = [
        (block, line)
        for block in usual.values()
        for line in block.lines
        if own(block) and len({number_words(each) for each in _lines(block, line, found)}) > 1
    ]
    tables = []
    for at in range(0, len(columns), COLUMNS):
        part = columns[at : at + COLUMNS]
        heads = ["Athlete", *(line.exercise for _, line in part)]
        rows = [
            [card.athlete, *(_cell(block, line, session) for block, line in part)]
            for card, session in found
        ]
        kept = [row for row in rows if any(row[1:])]
        if kept:
            widths = [NAME, *[COLUMN] * len(part)]
            tables.append(table_text(kept, _wrapped(heads), lined=True, widths=widths))
    return "\n".join(tables)


def _wrapped(heads: Sequence[str]) -> list[str]:
    return ["\n".join(textwrap.wrap(head, COLUMN)) for head in heads]


def _cell(block: Block, line: Line, session: SessionCard) -> str:
    shape = _shape(block)
    return next(
        (
            number_words(each)
            for other in session.blocks
            if _shape(other) == shape
            for each in other.lines
            if each.key == line.key
        ),
        "",
    )


def _others(found: Sequence[Done], usual: dict[str, Block]) -> Iterable[str]:
    """Yield what single athletes do instead, those with the same work together."""
    told: dict[str, list[str]] = {}
    for card, session in found:
        there = {block.name: block for block in session.blocks}
        for name, block in usual.items():
            own_notes = _own_notes(block, there.get(name), found)
            for words in filter(None, (_instead(block, there.get(name)), *own_notes)):
                told.setdefault(words, []).append(card.athlete)
    for words, names in told.items():
        yield bullet(f"{', '.join(names)}: {words}")


def _own_notes(usual: Block, block: Block | None, found: Sequence[Done]) -> list[str]:
    """Return the notes on a usual block that not all have."""
    if block is None or _shape(block) != _shape(usual):
        return []
    shared = _shared_notes(usual, found)
    return [f"{block.name}: {note}" for note in block.notes if note not in shared]


def _instead(usual: Block, block: Block | None) -> str:
    """Return what is different in a block; nothing if it is the usual one."""
    if block is None:
        return f"no {usual.name.lower()}"
    if _shape(block) == _shape(usual):
        return ""
    if not own(block):
        kept = {line.key for line in usual.lines}
        new = [
            f"{line.exercise} {work_words(line)}" for line in block.lines if line.key not in kept
        ]
        swapped = {line.planned for line in block.lines if line.key not in kept}
        gone = {line.key for line in usual.lines} - {line.key for line in block.lines} - swapped
        left = [f"no {line.exercise.lower()}" for line in usual.lines if line.key in gone]
        return f"{block.name.lower()}: {'; '.join([*new, *left])}" if new or left else ""
    lines = "; ".join(map(line_words, block.lines))
    reasons = f" ({'; '.join(block.notes)})" if block.notes else ""
    return f"{block_words(block)}: {lines or block.work}{reasons}"
