"""Edits in a few words."""

import datetime as dt

from cli.render.clean_text import clean
from optimiser.domain.changes import (
    Add,
    Close,
    Drop,
    Edit,
    Move,
    Open,
    PinChoice,
    Rank,
    RuleOff,
    RuleOn,
    Set,
)


def edit_words(edit: Edit) -> str:
    """Return what an edit does."""
    match edit:
        case Move():
            return f"Match of {_day(edit.date)} moved to {_day(edit.to)}"
        case Add():
            return f"Match added on {_day(edit.date)}"
        case Drop():
            return f"Match of {_day(edit.date)} taken out"
        case Rank():
            return f"Match of {_day(edit.date)} is {edit.priority.value}"
        case Close():
            return f"Closed from {_day(edit.first)} to {_day(edit.last)}"
        case Open():
            return f"Open from {_day(edit.first)} to {_day(edit.last)}"
        case Set():
            return clean(f"{edit.rule}: {edit.parameter} is {edit.value}")
        case RuleOff():
            return clean(f"{edit.rule} is not used")
        case RuleOn():
            return clean(f"{edit.rule} is used")
        case PinChoice():
            chosen = " ".join(str(part) for part in (edit.band, edit.dose) if part is not None)
            return clean(f"Week {edit.week}, {edit.quality}: {chosen}")


def _day(day: dt.date) -> str:
    return f"{day:%a} {day.day} {day:%b}"
