"""What the page shows, as plain data for its template."""

from typing import Any

from cli.render.breaches import breach_line
from cli.render.care import care_notes
from cli.render.clean_text import clean
from cli.render.limits import limit_line
from cli.render.pictures.comparison import changed_weeks
from cli.render.pictures.theme import ladder_colour, text_on
from cli.render.signs import MATCH_SIGNS
from cli.render.week_columns import COLUMNS, Column, Whole, whole
from cli.report.report import Report
from cli.report.report_words import day_things, status_words, week_span
from optimiser.days.week_plan import DayPlan
from optimiser.domain.document import FixturePart, PlanDocument, WeekPart
from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Quality

ON_PAGE = [column for column in COLUMNS if column.page]
SECTIONS = (
    ("picture", "Chart"),
    ("peaks", "High and medium matches"),
    ("season", "Season table"),
    ("weeks", "Weeks"),
    ("why", "Limits"),
    ("ladders", "Ladders"),
    ("rules", "Rules"),
    ("care", "Care"),
)


def page_data(report: Report) -> dict[str, Any]:
    """Return all the template needs but the pictures."""
    document, rest = report.document, whole(report.document, report.season)
    return {
        "name": clean(report.season.name),
        "lead": _lead(report),
        "verdict": [clean(each) for each in report.verdict],
        "facts": _facts(document),
        "sections": _sections(report),
        "signs": ", ".join(f"{sign} {priority.value}" for priority, sign in MATCH_SIGNS.items()),
        "peaks": _peaks(document),
        "breaches": [{"rule": b.rule, "words": clean(breach_line(b))} for b in document.breaches],
        "qualities": [clean(quality.name) for quality in report.season.qualities],
        "columns": [_column(column) for column in ON_PAGE],
        "weeks": [_week(report, index, rest) for index in range(len(document.weeks))],
        "limits": [clean(limit_line(report.season, each)) for each in report.limits],
        "notes": report.notes,
        "ladders": [_ladder(quality) for quality in report.season.qualities],
        "rules": [{"name": rule.name, "words": clean(rule.words())} for rule in report.rules],
        "care": care_notes(report.season),
        "status": status_words(document),
        "digest": document.scenario.digest[:12],
        "seed": document.seed,
        "versions": sorted(document.versions.items()),
    }


def _lead(report: Report) -> str:
    weeks = report.season.weeks
    count = len(report.season.fixtures)
    first, last = weeks[0].monday, report.weeks[-1].days[-1].date
    span = f"{first.day} {first:%B %Y} to {last.day} {last:%B %Y}"
    return f"{len(weeks)} weeks, {span}, {count} match{'' if count == 1 else 'es'}"


def _facts(document: PlanDocument) -> list[dict[str, str]]:
    match = document.match
    told = [
        ("Match score of 100", match.score),
        ("At high fixtures", match.at_high),
        ("At medium fixtures", match.at_medium),
        ("At low fixtures", match.at_low),
    ]
    facts = [(name, f"{score:.1f}") for name, score in told if score is not None]
    facts.append(("Rules broken", str(len(document.breaches)) if document.breaches else "none"))
    return [{"name": name, "value": value} for name, value in facts]


def _sections(report: Report) -> list[tuple[str, str]]:
    found = list(SECTIONS)
    if report.compared:
        found.insert(1, ("comparison", "What changes"))
    if report.document.breaches:
        found.insert([name for name, _ in found].index("season"), ("breaches", "Rules broken"))
    at = [name for name, _ in found].index("why") + 1
    notes = [(f"note-{number}", note.title) for number, note in enumerate(report.notes, 1)]
    return [*found[:at], *notes, *found[at:]]


def comparison_data(report: Report) -> dict[str, Any]:
    """Return what stands beside the picture of a comparison, if there is one."""
    if report.compared is None:
        return {"comparison_name": "", "changed": ""}
    weeks = changed_weeks(report.compared.before, report.document)
    told = f"Weeks that change: {', '.join(map(str, weeks))}." if weeks else "No week changes."
    return {"comparison_name": clean(report.compared.name), "changed": told}


def _peaks(document: PlanDocument) -> list[dict[str, Any]]:
    return [
        {
            "name": _named(fixture),
            "date": f"{fixture.date:%a} {fixture.date.day} {fixture.date:%b %Y}",
            "sign": MATCH_SIGNS[fixture.priority],
            "priority": fixture.priority.value,
            "week": week.week,
            "readiness": f"{week.readiness:.1f}",
            "target": f"{week.target:.0f}",
        }
        for week in document.weeks
        for fixture in week.fixtures
        if fixture.priority is not Priority.LOW
    ]


def _named(fixture: FixturePart) -> str:
    if fixture.matches:
        each = (f"{match.kickoff or ''} {match.opponent or match.competition}".strip()
                for match in fixture.matches)  # fmt: skip
        return clean(f"{fixture.called}: {'; '.join(each)}")
    told = [clean(part) for part in (fixture.opponent, fixture.competition)]
    return ", ".join(part for part in told if part) or "match"


# --- weeks ----------------------------------------------------------------------------------


def _column(column: Column) -> dict[str, Any]:
    return {
        "name": column.page,
        "about": column.about,
        "sort": "n nowrap" if column.number else "nowrap",
        "last": column.last,
    }


def _week(report: Report, index: int, rest: Whole) -> dict[str, Any]:
    part, days = report.document.weeks[index], report.weeks[index]
    first, last = days.days[0].date, days.days[-1].date
    parts = [_cell(quality, part) for quality in report.season.qualities]
    return {
        "number": part.week,
        "span": f"{first.day} {first:%b} to {last.day} {last:%b}",
        "about": week_span(part),
        "first": index == 0 or part.block != report.document.weeks[index - 1].block,
        "open": index == 0,
        "fixtures": [
            {
                "sign": MATCH_SIGNS[fixture.priority],
                "priority": fixture.priority.value,
                "name": clean(fixture.called) or "match",
            }
            for fixture in part.fixtures
        ],
        "loads": _loads(part),
        "minutes": days.minutes.words,
        "cells": {column.page: column.told(part, rest) for column in ON_PAGE},
        "parts": parts,
        "parts_told": [cell for cell in parts if cell["code"]],
        "days": [_day(day) for day in days.days],
        "notes": [*(f"Not kept: {fault}." for fault in days.faults), *days.notes],
    }


def _loads(part: WeekPart) -> str:
    load = part.load
    told = (("training", load.training), ("practice", load.practice), ("matches", load.matches))
    return ", ".join(f"{word} {value}" for word, value in told if value) or "nothing"


def _cell(quality: Quality, week: WeekPart) -> dict[str, Any]:
    part = week.qualities[quality.key]
    colour = "" if part.rung is None else _colour(quality, part.rung - 1)
    return {
        "name": clean(quality.name),
        "code": clean(part.band or ""),
        "label": clean(part.label),
        "dose": part.dose,
        "colour": colour,
        "text": text_on(colour) if colour else "",
    }


def _colour(quality: Quality, rung: int) -> str:
    return ladder_colour(rung / (len(quality.bands) - 1))


def _day(day: DayPlan) -> dict[str, Any]:
    return {
        "name": f"{day.date:%a} {day.date.day} {day.date:%b}",
        "near": day.label,
        "match": day.match is not None,
        "things": [
            {"words": words, "minutes": _number(minutes), "load": _number(load)}
            for words, minutes, load in day_things(day)
        ],
    }


def _number(value: int | None) -> str:
    return "" if value is None else str(value)


def _ladder(quality: Quality) -> dict[str, Any]:
    bands = [_band(quality, rung) for rung in range(len(quality.bands))]
    return {"name": clean(quality.name), "bands": bands}


def _band(quality: Quality, rung: int) -> dict[str, str]:
    band, colour = quality.bands[rung], _colour(quality, rung)
    return {
        "code": clean(band.code),
        "label": clean(band.label),
        "work": clean(band.work),
        "colour": colour,
        "text": text_on(colour),
    }
