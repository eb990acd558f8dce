"""Session cards as plain text: one athlete's, session by session."""

from collections.abc import Sequence

from cli.render.cards_words import (
    block_words,
    load_words,
    own,
    own_minutes,
    rest_words,
    rising_words,
    session_words,
    standing_words,
    week_words,
    work_words,
)
from cli.render.terminal import WIDTH, bullet, hanging, table_text
from optimiser.athlete.card import Block, Card, CardSet, Line, SessionCard
from optimiser.athlete.care import CARE
from optimiser.athlete.standing import BOTH_SIDES

RULE = "=" * WIDTH
HEADERS = ("Exercise", "Work", "Load or target", "Rest")
# With two blanks between columns they fill WIDTH at most.
WIDTHS = [41, 18, 26, 9]


def cards_text(cards: Sequence[Card]) -> str:
    """Return the cards one below the other, and what is to be said with them once."""
    return "\n\n".join([*(f"{RULE}\n{card_text(card)}" for card in cards), care_text(cards)])


def care_text(cards: Sequence[Card]) -> str:
    """Return what is said once with a set of cards."""
    return f"{RULE}\n" + "\n".join(map(bullet, care_words(cards)))


def care_words(cards: Sequence[Card]) -> list[str]:
    """Return it sentence by sentence; what is published on lowering only where it is done."""
    lines = (
        line.key
        for card in cards
        for session in card.sessions
        for block in session.blocks
        for line in block.lines
    )
    return [*CARE, *([BOTH_SIDES] if "hamstring_lowering" in lines else [])]


def cards_json(cards: Sequence[Card]) -> str:
    """Return the cards and what is to be said with them as JSON, two blanks deep."""
    return CardSet(cards=tuple(cards)).model_dump_json(indent=2)


def card_text(card: Card) -> str:
    """Return one card, at most 100 signs wide."""
    told = [card.athlete, card.group.value, f"{card.body_mass_kg:g} kg", own_minutes(card)]
    who = ", ".join(filter(None, told))
    heading = "\n".join(map(hanging, (who, week_words(card))))
    notes = "\n".join(map(bullet, card.notes))
    parts = [heading, notes, *map(session_text, card.sessions)]
    return "\n\n".join(filter(None, parts))


def session_text(session: SessionCard) -> str:
    """Return one session."""
    if session.away:
        return f"{session_words(session)}: you are away"
    blocks = [_block(block) for block in session.blocks]
    return "\n".join([hanging(session_words(session)), *blocks, bullet(session.pain)])


def _block(block: Block) -> str:
    if not own(block):
        return hanging(f"{block_words(block)}. {standing_words(block)}")
    rows = [
        [f"{line.exercise}\n{line.cue}", work_words(line), load_words(line), rest_words(line)]
        for line in block.lines
    ]
    return block_text(block, rows)


def block_text(block: Block, rows: Sequence[Sequence[str]]) -> str:
    """Return a block with a row of cells for each exercise."""
    table = table_text(rows, HEADERS, lined=True, widths=WIDTHS) if rows else ""
    return "\n".join(part for part in (block_words(block), table, _notes(block)) if part)


def _notes(block: Block) -> str:
    """Return what is to be said about a block, one bullet each."""
    work = [block.work] if block.work else []
    rising = [f"rising sets {words}" for line in block.lines if (words := rising_words(line))]
    told = [f"{line.exercise}: {line.note}" for line in block.lines if line.note]
    return "\n".join(map(bullet, dict.fromkeys([*work, *rising, *block.notes, *told])))


def line_words(line: Line) -> str:
    """Return a line in a few words, load or target included."""
    load = load_words(line)
    return f"{line.exercise} {work_words(line)}{f', {load}' if load else ''}"
