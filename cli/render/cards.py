"""Session cards as plain text."""

import textwrap
from collections.abc import Sequence

from tabulate import tabulate

from optimiser.athlete.card import Card, CardSet, Line, Section, SessionDay
from optimiser.athlete.care import CARE

WIDTH = 100
HEADERS = ("Band", "Exercise", "Work", "Load or target", "Rest")
# With two blanks between columns they fill WIDTH at most.
WIDTHS = [15, 22, 20, 26, 9]
#: Said where a quality is done in two sessions.
HALVES = "1 of 2: half of the sets told here, the larger half first; the rest in the other session"


def cards_text(cards: Sequence[Card]) -> str:
    """Return the cards one below the other, and what is to be said with them once."""
    rule = "=" * WIDTH
    care = "\n".join(_bullet(words) for words in CARE)
    return "\n\n".join([*(f"{rule}\n{card_text(card)}" for card in cards), f"{rule}\n{care}"])


def cards_json(cards: Sequence[Card]) -> str:
    """Return the cards and what is to be said with them as JSON, two blanks deep."""
    return CardSet(cards=tuple(cards)).model_dump_json(indent=2)


def card_text(card: Card) -> str:
    """Return one card, at most 100 signs wide."""
    places = [
        _place(card, [section for section in card.sections if section.place == place], place)
        for place in ("field", "gym")
    ]
    notes = "\n".join(_bullet(note) for note in card.notes)
    return "\n\n".join(part for part in (_heading(card), *places, notes) if part)


def _heading(card: Card) -> str:
    week = card.week
    who = f"{card.athlete}, {card.group.value}, {card.body_mass_kg:g} kg"
    when = f"Week {week.number}, {week.monday} to {week.sunday}, {week.phase.value}"
    matches = f"Fixtures: {'; '.join(week.fixtures)}" if week.fixtures else ""
    return "\n".join(
        textwrap.fill(words, WIDTH, subsequent_indent="  ")
        for words in (who, when, matches)
        if words
    )


def _place(card: Card, sections: list[Section], place: str) -> str:
    if not sections:
        return ""
    count = card.week.field if place == "field" else card.week.gym
    spread = f"{count} session{'' if count == 1 else 's'} in the week" if count else "this week"
    rows = [row for section in sections for row in _rows(section)]
    table = tabulate(
        rows,
        headers=HEADERS,
        tablefmt="simple",
        maxcolwidths=WIDTHS,
        disable_numparse=True,
    )
    told = [table] if rows else []
    notes = [_bullet(note) for section in sections for note in _notes(section)]
    days = [_bullet(_day(found)) for found in card.week.sessions if found.place == place]
    halves = [_bullet(HALVES)] if any("of 2)" in day for day in days) else []
    return "\n".join([f"{place.title()}, {spread}", *days, *told, *halves, *dict.fromkeys(notes)])


def _day(session: SessionDay) -> str:
    """Return when a session is and what it holds."""
    label = f" ({session.label})" if session.label else ""
    told = f"{session.date:%a %d %b}{label}: {', '.join(session.work)}, {session.minutes} min"
    for word, time in (("from", session.start_from), ("start by", session.start_by)):
        told += f", {word} {time}" if time else ""
    return f"{told}; you are away" if session.away else told


def _rows(section: Section) -> list[list[str]]:
    band = f"{section.code} {section.label}, {section.dose}"
    if not section.lines:
        return [[band, "as told below", "", "", ""]] if section.work else []
    first, *others = [
        [line.exercise, work_words(line), load_words(line), _minutes(line.rest_s)]
        for line in section.lines
    ]
    return [[band, *first], *(["", *row] for row in others)]


def _notes(section: Section) -> list[str]:
    work = [section.work] if section.work else []
    lines = [f"{line.exercise}: {line.note}" for line in section.lines if line.note]
    return [f"{section.code}: {words}" for words in [*work, *section.notes, *lines]]


def work_words(line: Line) -> str:
    """Return sets and what one set holds, such as ``4 x 5 each side``."""
    side = " each side" if line.each_side else ""
    if line.metres is not None:
        ahead = f"{line.lead_in:g} m in + " if line.lead_in else ""
        return f"{line.sets} x {ahead}{line.metres:g} m"
    reps = f"{_span(line.reps)}" if line.reps else ""
    seconds = f"{_span(line.seconds)} s" if line.seconds else ""
    held = " x ".join(filter(None, [str(line.sets), reps, seconds])) + side
    return f"{held}, {line.contacts} contacts" if line.contacts else held


def load_words(line: Line) -> str:
    """Return the load and where it comes from, or the target, or how hard to go."""
    if line.kg is None:
        return ", ".join(filter(None, [line.target, line.how]))
    kilograms = f"{_span(line.kg)} kg" if line.kg[1] else "body mass"
    share = f" ({_span(line.percent)} %)" if line.percent else ""
    left = f", leave {_span(line.reserve)}" if line.reserve else ""
    return f"{kilograms}{share}{left}; {line.how}"


def _span(span: tuple[float, float]) -> str:
    low, high = span
    return f"{low:g}" if low == high else f"{low:g}-{high:g}"


def _minutes(rest: tuple[float, float] | None) -> str:
    """Return a rest in whole seconds below 2 min, else in minutes."""
    if rest is None:
        return ""
    if rest[1] < 120:
        return f"{_span(rest)} s"
    return f"{_span((rest[0] / 60, rest[1] / 60))} min"


def _bullet(words: str) -> str:
    return textwrap.fill(words, WIDTH, initial_indent="- ", subsequent_indent="  ")
