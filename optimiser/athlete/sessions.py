"""An athlete's week as sessions: warm-up, the plan's own work in order, and the finish."""

import datetime as dt
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import floor

from optimiser.athlete.card import Block, CardPiece, Line, Section, SessionCard, SessionDay
from optimiser.athlete.card_lines import LineMaker
from optimiser.athlete.exercise import Item
from optimiser.athlete.held_items import barred_by
from optimiser.athlete.hold import Hold
from optimiser.athlete.line_time import in_fives, line_seconds, rising_once
from optimiser.athlete.standing import STEPS
from optimiser.domain.quality import Dose

#: Minutes over the plan's that are not worth a word.
SPARE = 2
#: On the way back runs of a warm-up stay so far below the work, in per cent of top speed
#: (engineering choice).
BELOW_WORK = 20.0


@dataclass(frozen=True)
class Worked:
    """What an athlete does on the days that one hold is for.

    Parameters
    ----------
    hold
        What the way back and time off allow: the standing work keeps to it too.
    sections
        The week's work by quality.
    """

    hold: Hold
    maker: LineMaker
    sections: tuple[Section, ...]


def session_cards(
    days: Iterable[SessionDay], worked: Callable[[dt.date], Worked]
) -> tuple[SessionCard, ...]:
    """Return the sessions of a week, each exercise once in each of them.

    Parameters
    ----------
    days
        Its sessions; one that the athlete is away for stays empty.
    worked
        What is done on a day.
    """
    return tuple(_session(there, day) for day in days for there in [worked(day.date)])


def _session(there: Worked, day: SessionDay) -> SessionCard:
    blocks = () if day.away else tuple(_blocks(there, day))
    return SessionCard(
        date=day.date,
        place=day.place,
        label=day.label,
        start_from=day.start_from,
        start_by=day.start_by,
        start=day.start,
        minutes=sum(block.minutes for block in blocks),
        away=day.away,
        blocks=blocks,
    )


def _blocks(there: Worked, day: SessionDay) -> Iterable[Block]:
    """Yield the blocks of a session; one of which nothing is left takes no minutes."""
    found, maker = {section.quality: section for section in there.sections}, there.maker
    work = [_work(found[each.quality], each) for each in day.pieces if each.quality in found]
    work = _rising_once([block for block in work if block.lines or block.work])
    work = [_timed(block, maker) for block in work]
    done = {line.key for block in work for line in block.lines}
    if warm_up := tuple(_standing(there, day, "warm-up", done)):
        yield Block(name="Warm-up", minutes=day.warm_up, lines=warm_up)
    yield from work
    if finish := tuple(_standing(there, day, "finish", done)):
        seconds = sum(line_seconds(line, maker.library.exercises) for line in finish)
        yield Block(name="Finish", minutes=min(day.finish, in_fives(seconds)), lines=finish)


def _standing(there: Worked, day: SessionDay, part: str, done: set[str]) -> Iterable[Line]:
    """Yield the lines of the standing work; what the session has already is done another way."""
    maker = there.maker
    barred = barred_by(there.hold, maker.library)
    for each in day.standing:
        if each.part != part:
            continue
        chooser, step = maker.choosing(done, barred), each.name in STEPS
        work = each.work if day.place == "field" else _indoors(each.work, maker)
        if step:
            work = [_rising_to_work(item, there.hold, maker) for item in work]
            chooser.barred = barred - {item.exercise for item in work if item.speed}
        chosen, _ = maker.choose(work, chooser, always=step)
        for line, _ in maker.lines(chosen, Dose.FULL):
            done.add(line.key)
            yield line.model_copy(update={"step": each.name})


def _rising_to_work(item: Item, hold: Hold, maker: LineMaker) -> Item:
    """Return the runs of a warm-up fewer and slower for who may run, but not yet at full speed."""
    exercise = maker.library.exercises[item.exercise]
    if not exercise.over_distance or exercise.timed or hold.speed == 0 or hold.lets_run:
        return item
    top = hold.speed - BELOW_WORK
    told = {
        "sets": max(1, floor(hold.share * item.sets)),
        "speed": (top, top),
        "note": f"to {top:g} % of top speed at most",
    }
    return item.model_copy(update=told)


def _indoors(work: Sequence[Item], maker: LineMaker) -> list[Item]:
    """Return standing work without its runs over a distance: between racks is no room for them."""
    exercises = maker.library.exercises
    return [
        maker.stand_in(item, exercise.instead[0], "")
        if exercise.over_distance and not exercise.timed and exercise.instead
        else item
        for item in work
        for exercise in [exercises[item.exercise]]
    ]


def _work(section: Section, part: CardPiece) -> Block:
    """Return one quality's part of a session."""
    codes = (
        section.code
        if section.code == section.planned
        else f"{section.code} in place of {section.planned}:"
    )
    of = f", part {part.part} of {part.parts}" if part.parts > 1 else ""
    return Block(
        name=section.quality,
        step=f"{codes} {section.label}, {section.dose}{of}",
        minutes=part.minutes,
        lines=_share(section.lines, part.part - 1, part.parts),
        work=section.work,
        notes=section.notes,
    )


def _share(lines: Sequence[Line], part: int, parts: int) -> tuple[Line, ...]:
    """Return the sets of one of the parts; odd sets go to the parts in turn."""
    found = []
    for at, line in enumerate(lines):
        turn = (part - at) % parts
        sets = (line.sets + parts - 1 - turn) // parts
        if sets:
            contacts = line.contacts * sets // line.sets
            found.append(line.model_copy(update={"sets": sets, "contacts": contacts}))
    return tuple(found)


def _rising_once(blocks: Sequence[Block]) -> list[Block]:
    """Return the blocks of a session with rising sets as if they were one."""
    made, first = [], True
    for block in blocks:
        lines = tuple(rising_once(block.lines, first=first))
        first = first and not any(line.rising for line in block.lines)
        made.append(block.model_copy(update={"lines": lines}))
    return made


def _timed(block: Block, maker: LineMaker) -> Block:
    """Return a block that says so if its sets cannot be done in the minutes planned for it."""
    exercises = maker.library.exercises
    seconds = sum(line_seconds(line, exercises, shortest=True) for line in block.lines)
    needed = round(seconds / 60)
    if needed <= block.minutes + SPARE:
        return block
    note = (
        f"about {needed} min even with the shortest rests, {block.minutes} planned: keep the rests "
        "and leave out sets from the end"
    )
    return block.model_copy(update={"notes": (*block.notes, note)})
