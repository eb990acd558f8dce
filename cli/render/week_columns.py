"""The columns of a plan: each says itself where it stands, how it is read and how it is told.

For the terminal, CSV, workbook and page, and for the reader of a plan changed by hand.
"""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal, NamedTuple

from cli.render.signs import LETTER
from cli.render.week_marks import week_marks
from optimiser.domain.document import PlanDocument, QualityPart, WeekPart
from optimiser.domain.season import Phase, Season
from optimiser.domain.week_number import index_of

PHASES = {Phase.OFF: "off", Phase.PRE: "pre", Phase.IN: "in"}
#: Whether a column of a plan that comes back is passed over, checked, or may have been changed.
Back = Literal["no", "checked", "changed"]


class Whole(NamedTuple):
    """What a week's text needs of the rest: the season, and the numbers of its matches by date."""

    season: Season
    numbers: dict[dt.date, int]


def whole(document: PlanDocument, season: Season) -> Whole:
    """Number the matches of the whole season from 1."""
    dates = [fixture.date for week in document.weeks for fixture in week.fixtures]
    return Whole(season, {date: number for number, date in enumerate(dates, 1)})


@dataclass(frozen=True, kw_only=True)
class Column:
    """One fact of a week.

    Parameters
    ----------
    file
        Name in CSV; None where it does not stand there, as with all names.
    place
        Among the columns of CSV, from 1.
    terminal, sheet, page
        Name there.
    about
        What the name on a page is short for.
    value
        As programs read it.
    cell
        In a workbook, if that is another; None in closed weeks, if it is `resting`.
    text
        As people read it, if it is not the value; nothing in closed weeks, if it is `resting`.
    resting
        True if a closed week has no such thing.
    number
        True if it is aligned as numbers are.
    width
        In a workbook, in characters.
    back
        What is done with it in a plan that comes back.
    last
        True if it stands behind the qualities.
    """

    file: str | None = None
    place: int = 0
    terminal: str | None = None
    sheet: str | None = None
    page: str | None = None
    about: str = ""
    value: Callable[[WeekPart], Any]
    cell: Callable[[WeekPart], Any] | None = None
    text: Callable[[WeekPart, Whole], str] | None = None
    resting: bool = False
    number: bool = False
    width: float = 9
    back: Back = "no"
    last: bool = False

    def told(self, week: WeekPart, rest: Whole) -> str:
        """Return what people read."""
        if self.resting and week.block is None:
            return ""
        value = self.value(week) if self.text is None else self.text(week, rest)
        return "" if value is None else str(value)

    def sheet_value(self, week: WeekPart) -> Any:
        """Return what a workbook holds."""
        if self.resting and week.block is None:
            return None
        return self.value(week) if self.cell is None else self.cell(week)


def _fixtures(week: WeekPart) -> str:
    return ", ".join(
        f"{LETTER[f.priority]} {f.date.day} {f.date:%b} {f.called}" for f in week.fixtures
    )


def _numbered(week: WeekPart, rest: Whole) -> str:
    return " ".join(f"{LETTER[f.priority]}{rest.numbers[f.date]}" for f in week.fixtures)


def _yes(flag: bool) -> str:
    return "yes" if flag else "no"


def _marks_and_breaks(week: WeekPart, rest: Whole) -> str:
    kinds = [item.kind for item in rest.season.weeks[index_of(week.week)].breaks]
    return " ".join(word for word in ("".join(week_marks(week)), *dict.fromkeys(kinds)) if word)


#: Of a week, in the order in which people see them.
COLUMNS = (
    Column(
        file="week",
        place=1,
        terminal="Week",
        sheet="Week",
        page="Week",
        value=lambda week: week.week,
        number=True,
        width=6,
        back="changed",
    ),
    Column(
        file="monday",
        place=2,
        terminal="Monday",
        sheet="Monday",
        page="Monday",
        value=lambda week: week.monday,
        text=lambda week, _: f"{week.monday.day} {week.monday:%b}",
        number=True,
        width=11.5,
        back="checked",
    ),
    Column(
        file="phase",
        place=8,
        terminal="Ph",
        sheet="Phase",
        value=lambda week: week.phase.value,
        text=lambda week, _: PHASES[week.phase],
        width=11,
    ),
    Column(
        file="block",
        place=9,
        sheet="Block",
        page="Block",
        value=lambda week: week.block,
        width=7,
        back="changed",
    ),
    Column(file="block_week", place=10, value=lambda week: week.block_week),
    Column(
        terminal="Match",
        sheet="Fixtures",
        page="Fixtures",
        value=_fixtures,
        text=_numbered,
        width=30,
    ),
    Column(
        file="target",
        place=15,
        terminal="Target",
        sheet="Target",
        page="Target",
        value=lambda week: week.target,
        cell=lambda week: round(week.target),
        text=lambda week, _: f"{week.target:.0f}",
        resting=True,
        number=True,
        width=8,
    ),
    Column(
        file="readiness",
        place=16,
        terminal="Ready",
        sheet="Planned readiness",
        page="Ready",
        about="planned readiness",
        value=lambda week: week.readiness,
        cell=lambda week: round(week.readiness, 1),
        text=lambda week, _: f"{week.readiness:.0f}",
        number=True,
        width=10.5,
    ),
    Column(terminal="Load", page="Load", value=lambda week: week.load.total, number=True),
    Column(
        file="field",
        place=13,
        sheet="Field",
        value=lambda week: week.sessions.field,
        resting=True,
        width=6.5,
        back="changed",
    ),
    Column(
        file="gym",
        place=14,
        sheet="Gym",
        value=lambda week: week.sessions.gym,
        resting=True,
        width=6.5,
        back="changed",
    ),
    Column(
        terminal="f/g",
        page="f/g",
        about="field and gym sessions",
        value=lambda week: f"{week.sessions.field}/{week.sessions.gym}",
        resting=True,
    ),
    Column(file="deload", place=11, value=lambda week: _yes(week.deload)),
    Column(file="taper", place=12, value=lambda week: _yes(week.taper)),
    Column(terminal="", value=week_marks, text=_marks_and_breaks, last=True),
    Column(
        sheet="Lighter", page="Lighter", value=lambda week: " ".join(week_marks(week)), last=True
    ),
)


@dataclass(frozen=True, kw_only=True)
class QualityColumn:
    """One fact of a quality in a week.

    Parameters
    ----------
    file, place
        As those of `Column`.
    sheet
        What follows the quality's name in a workbook; None where it does not stand there.
    value
        By the quality's key and its part of the week.
    back
        As that of `Column`.
    """

    file: str
    place: int
    value: Callable[[str, QualityPart], Any]
    sheet: str | None = None
    back: Back = "no"


OF_QUALITY = (
    QualityColumn(file="quality", place=3, value=lambda key, _: key, back="changed"),
    QualityColumn(
        file="band", place=4, value=lambda _, part: part.band, sheet="band", back="changed"
    ),
    QualityColumn(
        file="dose", place=5, value=lambda _, part: part.dose, sheet="dose", back="changed"
    ),
    QualityColumn(file="rung", place=6, value=lambda _, part: part.rung),
    QualityColumn(file="label", place=7, value=lambda _, part: part.label),
    QualityColumn(file="quality_readiness", place=17, value=lambda _, part: part.readiness),
)
#: Columns of CSV in their order.
IN_FILE = sorted(
    (column for column in (*COLUMNS, *OF_QUALITY) if column.file), key=lambda column: column.place
)
