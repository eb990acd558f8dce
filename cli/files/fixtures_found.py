"""What was found in a fixture list, and what was left out of it and why."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from cli.files.listed import Listed

NO_ZONE = (
    "times in UTC are kept as written, for the list names no time zone; "
    "say it by `--zone Europe/Dublin`"
)
DateOrder = Literal["", "day-first", "month-first"]


@dataclass(frozen=True)
class ListFacts:
    """What the person says about a list that it does not say itself.

    Parameters
    ----------
    dates
        Order of day and month in dates such as 03/04/2026.
    match
        Only what has this text in its name is a match.
    zone
        Time zone into which times in UTC are turned.
    club
        Of a whole league's list, only this club's matches.
    calendar
        Of a calendar file, only entries of the calendar or category with this text in its name.
    year
        In which the season begins, for dates that name none; 0 if it is not said.
    """

    dates: DateOrder = ""
    match: str = ""
    zone: str = ""
    club: str = ""
    calendar: str = ""
    year: int = 0


@dataclass(frozen=True)
class LeftOut:
    """One row or entry that is no match to plan around.

    Parameters
    ----------
    where
        ``line 3`` or ``event 3``.
    name
        What the list calls it.
    kind
        A key of the words below.
    """

    where: str
    name: str
    kind: str


@dataclass(frozen=True)
class FoundFixtures:
    """A fixture list as understood.

    Parameters
    ----------
    listed
        The matches.
    rows
        How many rows or entries there were.
    unit
        What such a one is called.
    ranked
        Whether the list gives priorities itself.
    club, others
        Of a list of home and away: whose matches these are, and how many rows are other clubs'.
    team
        Whose most of the matches are, if a column says so.
    apart
        Whether more than its cells was needed to read it, so that a scenario had better hold the
        matches itself.
    """

    listed: Sequence[Listed]
    rows: int
    unit: str = "row"
    left_out: Sequence[LeftOut] = ()
    notices: Sequence[str] = field(default_factory=tuple)
    ranked: bool = False
    club: str = ""
    others: int = 0
    team: str = ""
    apart: bool = False


#: For each kind: one of them, several of them, and the reason of one.
KINDS = {
    "training": ("training left out", "trainings left out", "a training or a meeting"),
    "nobody": ("week without an opponent", "weeks without an opponent", "nobody is played"),
    "occasion": ("occasion left out", "occasions left out", "not said to be a match"),
    "all-day": (
        "all-day entry left out",
        "all-day entries left out",
        "lasts all day, where matches have hours, and is not said to be one (`--match` keeps it)",
    ),
    "elsewhere": (
        "of another calendar left out",
        "of other calendars left out",
        "is of another calendar or category",
    ),
    "twice": ("listed twice", "listed twice", "a row before says the same"),
    "undated": ("without a date left out", "without a date left out", "has no date yet"),
    "heading": ("heading or note", "headings and notes", "a heading or a note"),
    "postponed": ("postponed", "postponed", "postponed"),
    "cancelled": ("cancelled", "cancelled", "cancelled"),
    "days": ("stretch of days left out", "stretches of days left out", "lasts several days"),
    "older": ("older version left out", "older versions left out", "a newer version counts"),
    "other": ("other left out", "others left out", "does not have the text asked for"),
}
#: Kinds that are counted and not told one by one.
UNTOLD = ("heading",)


def found_words(name: str, found: FoundFixtures) -> list[str]:
    """Return what was understood: a line of counts, then a line for each that was left out."""
    counts = [_counted(len(found.listed), "match", "matches")]
    for kind, (one, more, _) in KINDS.items():
        number = sum(item.kind == kind for item in found.left_out)
        counts += [_counted(number, one, more)] if number else []
    counts += [f"{found.others} of other clubs passed over"] if found.others else []
    many = {"row": "rows", "entry": "entries"}[found.unit]
    head = f"{name}: {_counted(found.rows, found.unit, many)}: {', '.join(counts)}"
    told = [item for item in found.left_out if item.kind not in UNTOLD]
    return [head, *(_reason(item) for item in told), *found.notices]


def _counted(number: int, one: str, more: str) -> str:
    return f"{number} {one if number == 1 else more}"


def _reason(item: LeftOut) -> str:
    name = f" ({item.name})" if item.name else ""
    return f"  {item.where}{name}: left out, {KINDS[item.kind][2]}"
