"""A plan as a table: one row a week, grouped in blocks."""

import datetime as dt
import textwrap
from collections.abc import Sequence
from itertools import groupby

from cli.render.given_up import concessions_text, waivers_text
from cli.render.proof import document_lines
from cli.render.signs import DOSES, LETTER, Signs
from cli.render.terminal import filled, ruled_lines, table_text
from cli.render.week_columns import COLUMNS, Column, Whole, whole
from cli.render.week_marks import marks_words
from cli.render.words import one_line
from optimiser.domain.document import FixturePart, PlanDocument, WeekPart
from optimiser.domain.fixture import Priority
from optimiser.domain.season import Season
from optimiser.domain.wording import counted

WIDTH = 120
#: Longest name of a match.
NAME = 60
#: From this many qualities on a dose is one sign.
MANY = 8
LONGEST_WORD, SHORTEST_WORD = 12, 4
SHOWN = [column for column in COLUMNS if column.terminal is not None]
BEFORE = [column for column in SHOWN if not column.last]
BEHIND = [column for column in SHOWN if column.last]

#: Of a plan that comes without its proof.
UNPROVEN = "Made by hand, or read without its proof."


def plan_table(
    document: PlanDocument,
    season: Season,
    signs: Signs,
    *,
    first: int = 1,
    last: int | None = None,
) -> str:
    """Return a plan as text.

    Parameters
    ----------
    first, last
        Weeks to show, counted from 1; left out, all of them.
    """
    shown = [w for w in document.weeks if first <= w.week <= (last or len(document.weeks))]
    parts = [
        heading(document, season),
        concessions_text(document),
        weeks_table(document, season, signs, shown),
        legend(season, signs),
        great_matches(document, season, shown),
        retests_text(shown),
        waivers_text(document),
    ]
    return "\n\n".join(part for part in parts if part)


def retests_text(weeks: Sequence[WeekPart]) -> str:
    """Return the weeks to test again in, or nothing."""
    told = [
        f"week {week.week} ({' or '.join(f'{day:%a %d %b}' for day in week.retest)})"
        for week in weeks
        if week.retest
    ]
    if not told:
        return ""
    words = (
        f"Test again in {', '.join(told)}: lighter weeks 6 to 12 apart, 72 h after a match and "
        "96 h before one."
    )
    return filled(words)


# --- heading --------------------------------------------------------------------------------


def heading(document: PlanDocument, season: Season) -> str:
    """Return what was planned, how good it is and how sure that is."""
    name, days = one_line(season.name, 80), len(season.fixtures)
    count = max(days, season.matches)
    matches = counted(count, "match") + (f" on {counted(days, 'day')}" if days < count else "")
    lines = [
        f"{name}: {counted(len(season.weeks), 'week')} from {season.weeks[0].monday}, {matches}",
        match_line(document),
    ]
    lines += [textwrap.fill(line, WIDTH) for line in document_lines(document)]
    if document.breaches:
        lines.append(f"It breaks rules in {counted(len(document.breaches), 'place')}; see below.")
    return "\n".join(lines)


def match_line(document: PlanDocument) -> str:
    """Return the match scores in words."""
    match = document.match
    by = {"high": match.at_high, "medium": match.at_medium, "low": match.at_low}
    told = ", ".join(f"{score:.1f} at {name}" for name, score in by.items() if score is not None)
    return (
        f"Match score {match.score or 0:.1f} of 100 (planned readiness against its target): {told}."
    )


# --- weeks ----------------------------------------------------------------------------------


def weeks_table(
    document: PlanDocument, season: Season, signs: Signs, shown: Sequence[WeekPart]
) -> str:
    """Return the rows of the weeks, as wide as WIDTH if the names of qualities can be cut so."""
    rest = whole(document, season)
    rows = [_row(week, rest, signs) for week in shown]
    names = [quality.name for quality in season.qualities]
    for longest in range(LONGEST_WORD, SHORTEST_WORD - 1, -1):
        head, lines = _drawn(rows, names, longest)
        if max(map(len, [*head, *lines])) <= WIDTH:
            break
    return "\n".join([*head, *_grouped(document, shown, lines)])


def _drawn(
    rows: list[list[str]], names: Sequence[str], longest: int
) -> tuple[list[str], list[str]]:
    """Return the lines of the head and one line a row; the head's words are cut to fit."""
    words = [[word[:longest] for word in name.split()] for name in names]
    deep = max(map(len, words))
    head = [
        [*_heads(BEFORE, line), *(_nth(name, line) for name in words), *_heads(BEHIND, line)]
        for line in range(deep)
    ]
    align = [*_aligned(BEFORE), *["left"] * len(names), *_aligned(BEHIND)]
    lines = ruled_lines(head, rows, align)
    return lines[: deep + 1], lines[deep + 1 :]


def _heads(columns: Sequence[Column], line: int) -> list[str]:
    return [(column.terminal or "") if line == 0 else "" for column in columns]


def _aligned(columns: Sequence[Column]) -> list[str]:
    return ["right" if column.number else "left" for column in columns]


def _nth(words: Sequence[str], index: int) -> str:
    return words[index] if index < len(words) else ""


def _row(week: WeekPart, rest: Whole, signs: Signs) -> list[str]:
    keys = rest.season.keys
    return [
        *(column.told(week, rest) for column in BEFORE),
        *(_cell(week, key, signs, many=len(keys) >= MANY) for key in keys),
        *(column.told(week, rest) for column in BEHIND),
    ]


def _cell(week: WeekPart, key: str, signs: Signs, *, many: bool) -> str:
    part = week.qualities[key]
    if part.band is None and part.dose == "none":
        return ""
    if many:
        return f"{part.band or '?'}{'' if part.band is None else ' '}{signs.short[part.dose]}"
    return f"{part.band or '?'} {signs.doses[part.dose]}"


def _grouped(document: PlanDocument, shown: Sequence[WeekPart], lines: Sequence[str]) -> list[str]:
    out = []
    pairs = zip(shown, lines, strict=True)
    for block, group in groupby(pairs, key=lambda pair: pair[0].block):
        out.append(_block_line(document, block))
        out += [line for _, line in group]
    return out


def _block_line(document: PlanDocument, block: int | None) -> str:
    if block is None:
        return "closed"
    weeks = [week for week in document.weeks if week.block == block]
    phases = ", ".join(dict.fromkeys(week.phase.value for week in weeks))
    sunday = weeks[-1].monday + dt.timedelta(days=6)
    span = f"weeks {weeks[0].week}-{weeks[-1].week}" if len(weeks) > 1 else f"week {weeks[0].week}"
    return f"block {block}: {span}, {phases}, {weeks[0].monday} to {sunday}"


# --- below ----------------------------------------------------------------------------------


def legend(season: Season, signs: Signs) -> str:
    """Return what the signs and the codes of bands mean."""
    drawn = signs.short if len(season.qualities) >= MANY else signs.doses
    doses = ", ".join(f"{drawn[dose]} {dose}" for dose in reversed(DOSES))
    lines = [
        f"Dose: {doses}. Match: P peak, H high, M medium, L low, and its number in the season.",
        "Target and Ready: planned readiness; 100 is rested at the top bands, and a taper may pass "
        "it a little.",
        "Above target costs nothing, and after a high match less is asked for.",
        "Load: AU (minutes x rating) of own work, team practice and matches; `week` has warm-ups.",
        f"f/g: field and gym sessions. {marks_words()}.",
    ]
    ladders = [
        [quality.name, ", ".join(f"{band.code} {band.label}" for band in quality.bands)]
        for quality in season.qualities
    ]
    table = table_text(ladders, widths=[None, WIDTH - 25])
    return "\n".join([*lines, "Bands, general to specific:", *_indented(table)])


def great_matches(document: PlanDocument, season: Season, shown: Sequence[WeekPart]) -> str:
    """Return the high and medium matches of the weeks shown, with what is reached there."""
    numbers = whole(document, season).numbers
    rows = [
        row
        for week in shown
        for fixture in week.fixtures
        if fixture.priority is not Priority.LOW
        for row in (
            [
                f"{LETTER[fixture.priority]}{numbers[fixture.date]}",
                f"{fixture.date:%a} {fixture.date}",
                _named(fixture),
                f"week {week.week}",
                f"planned readiness {week.readiness:.1f}, target {week.target:.0f}",
            ],
            *_each(fixture),
        )
    ]
    if not rows:
        return ""
    table = table_text(rows)
    return "\n".join(["High and medium matches:", *_indented(table)])


def _named(fixture: FixturePart) -> str:
    told = ", ".join(part for part in (fixture.opponent, fixture.competition) if part) or "match"
    if fixture.matches:
        told = f"{fixture.called}, {counted(len(fixture.matches), 'match')}"
    begun = fixture.event if fixture.event != fixture.date else None
    since = f" (begun {begun:%a} {begun.day} {begun:%b})" if begun else ""
    return f"{one_line(told, NAME - len(since))}{since}"


def _each(fixture: FixturePart) -> list[list[str]]:
    """Return a row for each match of a day with several."""
    told = [(match.kickoff, match.opponent or match.competition) for match in fixture.matches]
    return [["", f"  {time or ''}", one_line(name or "match")] for time, name in told]


def _indented(table: str) -> list[str]:
    return [f"  {line}".rstrip() for line in table.splitlines()]
