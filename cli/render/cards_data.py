"""Session cards as the pages and the printed sheets show them: words only, fit to be shown."""

from collections.abc import Sequence
from dataclasses import dataclass

from cli.render.cards_words import (
    load_words,
    own,
    own_minutes,
    rest_words,
    rising_words,
    session_words,
    week_words,
    work_words,
)
from cli.render.clean_text import clean
from optimiser.athlete.card import Block, Card, Line, SessionCard


@dataclass(frozen=True)
class CardRow:
    """One exercise; ``rising`` are the sets before it."""

    step: str
    exercise: str
    work: str
    load: str
    rest: str
    cue: str
    rising: str
    note: str


@dataclass(frozen=True)
class Part:
    """One block; ``own`` is True for the plan's own work."""

    title: str
    detail: str
    minutes: int
    rows: tuple[CardRow, ...]
    notes: tuple[str, ...]
    own: bool


@dataclass(frozen=True)
class Sheet:
    """One session of one athlete."""

    athlete: str
    about: str
    week: str
    title: str
    away: bool
    parts: tuple[Part, ...]
    pain: str
    notes: tuple[str, ...]
    key: tuple[str, str]

    @property
    def rows(self) -> int:
        """Return the exercises of all parts."""
        return sum(len(part.rows) for part in self.parts)


def sheets(cards: Sequence[Card]) -> list[Sheet]:
    """Return the sessions of the cards, athlete by athlete; one without any has an empty one."""
    return [sheet for card in cards for sheet in _of(card)]


def _of(card: Card) -> list[Sheet]:
    return [_sheet(card, session) for session in card.sessions] or [_sheet(card, None)]


def _sheet(card: Card, session: SessionCard | None) -> Sheet:
    mass = f"{card.body_mass_kg:g} kg"
    return Sheet(
        athlete=clean(card.athlete),
        about=", ".join(filter(None, [card.group.value, mass, own_minutes(card)])),
        week=clean(week_words(card)),
        title=session_words(session) if session else "No session this week",
        away=bool(session and session.away),
        parts=tuple(map(_part, session.blocks)) if session else (),
        pain=session.pain if session and not session.away else "",
        notes=tuple(map(clean, card.notes)),
        key=(str(session.date), session.place) if session else ("", ""),
    )


def _part(block: Block) -> Part:
    work = [block.work] if block.work else []
    return Part(
        title=clean(block.name),
        detail=clean(block.step),
        minutes=block.minutes,
        rows=tuple(map(_row, block.lines)),
        notes=tuple(map(clean, [*work, *block.notes])),
        own=own(block),
    )


def _row(line: Line) -> CardRow:
    return CardRow(
        step=line.step,
        exercise=clean(line.exercise),
        work=work_words(line),
        load=clean(load_words(line)),
        rest=rest_words(line),
        cue=clean(line.cue),
        rising=clean(rising_words(line)),
        note=clean(line.note),
    )
