"""Edits in a few words."""

import datetime as dt
from collections.abc import Callable

from cli.render.clean_text import clean
from cli.serve.rule_words import field_words, rule_title
from constraints.blocks import Blocks
from constraints.pin import Pin
from optimiser.domain.changes import (
    Add,
    AddBreak,
    Close,
    Describe,
    Drop,
    DropBreak,
    Edit,
    Move,
    Open,
    PinChoice,
    Rank,
    RuleOff,
    RuleOn,
    Set,
)
from optimiser.domain.wording import weeks_listed

#: What is said of the weeks in which blocks are to begin, or not to.
BORDERS = {
    "begin": ("A block begins in {}", "No week is asked to begin a block"),
    "go_on": ("No block begins in {}", "Blocks may begin in any week"),
}


def edit_words(edit: Edit) -> str:
    """Return what an edit does."""
    return _words(edit, _day)


def page_words(edit: Edit) -> str:
    """Return what an edit does, with dates that the page writes as its reader does."""
    return _words(edit, dt.date.isoformat)


def _words(edit: Edit, day: Callable[[dt.date], str]) -> str:
    match edit:
        case Move():
            if edit.date == edit.to and edit.kickoff is not None:
                return f"Match of {day(edit.date)} kicks off at {edit.kickoff:%H:%M}"
            return f"Match of {day(edit.date)} moved to {day(edit.to)}"
        case Add():
            against = f" against {edit.opponent}" if edit.opponent else ""
            return clean(f"Match{against} added on {day(edit.date)}")
        case Drop():
            return f"Match of {day(edit.date)} taken out"
        case Rank():
            return f"Match of {day(edit.date)} is {edit.priority.value}"
        case Describe():
            return clean(f"Match of {day(edit.date)}: {_described(edit)}")
        case Close():
            return f"Closed from {day(edit.first)} to {day(edit.last)}"
        case Open():
            return f"Open from {day(edit.first)} to {day(edit.last)}"
        case AddBreak():
            note = f" ({edit.note})" if edit.note else ""
            return clean(f"{_break(edit, day)} marked{note}")
        case DropBreak():
            return f"{_break(edit, day)} taken out"
        case _:
            return clean(_without_date(edit))


def _break(edit: AddBreak | DropBreak, day: Callable[[dt.date], str]) -> str:
    return f"{edit.kind.capitalize()} from {day(edit.first)} to {day(edit.last)}"


def _without_date(edit: Set | RuleOff | RuleOn | PinChoice) -> str:
    match edit:
        case Set():
            return _set(edit)
        case RuleOff():
            return f"{rule_title(edit.rule)} is not used"
        case RuleOn():
            return f"{rule_title(edit.rule)} is used"
        case PinChoice():
            chosen = " ".join(str(part) for part in (edit.band, edit.dose) if part is not None)
            name = edit.quality.replace("_", " ")
            return f"Week {edit.week}, {name}: held at {chosen}"


def _day(day: dt.date) -> str:
    return f"{day:%a} {day.day} {day:%b}"


def _described(edit: Describe) -> str:
    told = {
        "against {}": edit.opponent,
        "{}": edit.competition,
        "at {}": None if edit.kickoff is None else f"{edit.kickoff:%H:%M}",
        "{} ": edit.venue,
        "{} h of travel": None if edit.travel_hours is None else f"{edit.travel_hours:g}",
    }
    said = [
        form.format(value or "none").strip() for form, value in told.items() if value is not None
    ]
    return ", ".join(said) or "as it was"


def _set(edit: Set) -> str:
    title = rule_title(edit.rule)
    if edit.parameter == "waive":
        return f"{title}: {len(edit.value)} place{'' if len(edit.value) == 1 else 's'} let off"
    if edit.rule == Pin.name and edit.parameter == "choices":
        return f"{len(edit.value)} choice{'' if len(edit.value) == 1 else 's'} held"
    if edit.rule == Blocks.name and edit.parameter in BORDERS:
        form, none = BORDERS[edit.parameter]
        return form.format(weeks_listed(map(int, edit.value))) if edit.value else none
    return f"{title}: {field_words(edit.parameter)} {_value(edit.value)}"


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)
