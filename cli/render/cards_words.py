"""The words of one line of a card: what is done, how heavy or fast, and how long the rest is."""

from optimiser.athlete.card import Block, Card, Line, SessionCard
from optimiser.athlete.lift_load import span_words

#: Marks a load that rests on an estimate.
ABOUT = "~"
ABOUT_WORDS = "~ from an estimated 1RM, good to 5-7 % (Hutchins and Gearhart 2010)"


def week_words(card: Card) -> str:
    """Return which week it is and what is played."""
    week = card.week
    first, last = week.monday, week.sunday
    span = f"{first.day} {first:%b} to {last.day} {last:%b %Y}"
    played = f". Fixtures: {'; '.join(week.fixtures)}" if week.fixtures else ""
    return f"Week {week.number}, {span}, {week.phase.value}{played}"


def own_minutes(card: Card) -> str:
    """Return how many sessions of the week are the athlete's, and their minutes in all."""
    there = [session.minutes for session in card.sessions if not session.away]
    if not there:
        return ""
    return f"{len(there)} session{'s' if len(there) > 1 else ''}, {sum(there)} min"


def session_words(session: SessionCard) -> str:
    """Return when and where a session is and how long it takes."""
    day = f"{session.date:%a} {session.date.day} {session.date:%b}"
    told = [day, session.start, session.place, session.label, f"{session.minutes} min"]
    for word, time in (("from", session.start_from), ("start by", session.start_by)):
        told += [f"{word} {time}"] if time else []
    return ", ".join(filter(None, told))


def block_words(block: Block) -> str:
    """Return what a block is and how long it takes."""
    return f"{block.name}{f' {block.step}' if block.step else ''}, {block.minutes} min"


def work_words(line: Line) -> str:
    """Return sets and what one set holds, such as ``4 x 5 each side``."""
    side = " each side" if line.each_side else ""
    if line.metres is not None:
        ahead = f"{line.lead_in:g} m in + " if line.lead_in else ""
        return f"{line.sets} x {ahead}{line.metres:g} m"
    reps = f"{span_words(line.reps)}" if line.reps else ""
    seconds = seconds_words(line.seconds) if line.seconds else ""
    sets = "" if line.sets == 1 and line.seconds else str(line.sets)
    held = " x ".join(filter(None, [sets, reps, seconds])) + side
    return f"{held}, {line.contacts} contacts" if line.contacts else held


def load_words(line: Line) -> str:
    """Return the load and where it comes from, or the target, or how hard to go."""
    if line.kg is None:
        return ", ".join(filter(None, [line.target, line.how]))
    share = f" ({span_words(line.percent)} %)" if line.percent else ""
    left = f", leave {span_words(line.reserve)}" if line.reserve else ""
    return f"{kg_words(line)}{share}{left}; {line.how}"


def number_words(line: Line) -> str:
    """Return what is an athlete's own about a line, as short as can be; nothing if it is not."""
    if line.kg is not None:
        return f"{ABOUT if 'about' in line.how else ''}{kg_words(line)}"
    return line.target or line.how


def kg_words(line: Line) -> str:
    """Return the kilograms."""
    return f"{span_words(line.kg)} kg" if line.kg and line.kg[1] else "body mass"


def rising_words(line: Line) -> str:
    """Return the rising sets before a heavy lift; nothing where there are none."""
    sets = [
        f"{each.percent:g} %{f' {each.kg:g} kg' if each.kg else ''} x {each.reps}"
        for each in line.rising
    ]
    return f"before {line.exercise}: {', '.join(sets)}" if sets else ""


def rest_words(line: Line) -> str:
    """Return a rest in whole seconds below 2 min, else in minutes; none after a single set."""
    rest = line.rest_s
    if rest is None or not rest[1] or line.sets == 1:
        return ""
    if rest[1] < 120:
        return f"{span_words(rest)} s"
    return f"{span_words((rest[0] / 60, rest[1] / 60))} min"


def seconds_words(seconds: tuple[float, float]) -> str:
    """Return a length of time, whole minutes as such."""
    if seconds[0] == seconds[1] and seconds[0] >= 60 and not seconds[0] % 60:
        return f"{seconds[0] / 60:g} min"
    return f"{span_words(seconds)} s"


def own(block: Block) -> bool:
    """Return True if a block is the plan's own work, not warm-up or finish."""
    return bool(block.step)


def standing_words(block: Block) -> str:
    """Return a warm-up or a finish in one sentence, step by step."""
    steps: dict[str, list[str]] = {}
    for line in block.lines:
        note = f" ({line.note})" if line.note else ""
        steps.setdefault(line.step, []).append(f"{line.exercise} {work_words(line)}{note}")
    return "; ".join(f"{step.lower()}: {', '.join(held)}" for step, held in steps.items())
