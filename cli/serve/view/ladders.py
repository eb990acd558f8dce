"""The qualities on the page: merged bars by band, and every week's dose."""

from collections.abc import Sequence
from typing import Any

from cli.render.clean_text import clean
from cli.render.pictures.theme import ladder_colour, text_on
from cli.serve.side import SeasonSide
from constraints.blocks import Blocks
from constraints.pin import Pin
from optimiser.domain.document import PlanDocument, QualityPart, WeekPart
from optimiser.domain.quality import Quality


def qualities(here: SeasonSide, shown: SeasonSide, base: SeasonSide) -> list[dict[str, Any]]:
    """Return every quality with its bars and its cells."""
    document, before = shown.document, base.document
    held = _held(here)
    return [
        {
            "key": quality.key,
            "name": clean(quality.name),
            "place": quality.place,
            "bands": [
                {"code": clean(band.code), "label": clean(band.label)} for band in quality.bands
            ],
            "bars": _bars(quality, document.weeks) if document else [],
            "cells": _cells(quality, document, before, held) if document else [],
        }
        for quality in here.season.qualities
    ]


def borders(here: SeasonSide) -> dict[str, list[int]] | None:
    """Return the weeks asked to begin a block or not to; None where blocks have no rule."""
    rule = next((rule for rule in here.rules if isinstance(rule, Blocks)), None)
    return None if rule is None else {"begin": [*rule.begin], "go_on": [*rule.go_on]}


def _bars(quality: Quality, weeks: Sequence[WeekPart]) -> list[dict[str, Any]]:
    """Return one bar a stretch of one band in one block; weeks are counted from 1."""
    bars: list[dict[str, Any]] = []
    last: tuple[int | None, int | None] = (None, None)
    for week in weeks:
        part = week.qualities[quality.key]
        here = week.block, part.rung
        if part.rung is None:
            last = (None, None)
            continue
        if here == last:
            bars[-1]["last"] = week.week
        else:
            bars.append(_bar(quality, week, part.rung))
        last = here
    return bars


def _bar(quality: Quality, week: WeekPart, rung: int) -> dict[str, Any]:
    band = quality.bands[rung - 1]
    colour = ladder_colour((rung - 1) / (len(quality.bands) - 1))
    return {
        "first": week.week,
        "last": week.week,
        "code": clean(band.code),
        "label": clean(band.label),
        "rung": rung,
        "rungs": len(quality.bands),
        "colour": colour,
        "text": text_on(colour),
    }


def _cells(
    quality: Quality,
    document: PlanDocument,
    before: PlanDocument | None,
    held: set[tuple[int, str]],
) -> list[dict[str, Any]]:
    rows = []
    for at, week in enumerate(document.weeks):
        part = week.qualities[quality.key]
        was = before.weeks[at].qualities[quality.key] if before else part
        rows.append(
            {
                "code": clean(part.band or ""),
                "dose": part.dose,
                "ready": None if part.readiness is None else round(part.readiness, 1),
                "was": "" if _choice(was) == _choice(part) else _choice(was),
                "done": _done(quality, week),
                "held": (week.week, quality.key) in held,
            }
        )
    return rows


def _choice(part: QualityPart) -> str:
    return "nothing" if part.band is None or part.dose == "none" else f"{part.band} {part.dose}"


def _done(quality: Quality, week: WeekPart) -> str:
    """Return what was done, where it is not what was planned."""
    if week.done is None:
        return ""
    dose = week.done.doses.get(quality.key, "none")
    band = week.done.bands.get(quality.key)
    done = "nothing" if band is None or dose == "none" else f"{band} {dose}"
    return "" if done == _choice(week.qualities[quality.key]) else done


def _held(here: SeasonSide) -> set[tuple[int, str]]:
    """Return the places in which a person has decided; weeks from 1."""
    pins = [rule for rule in here.rules if isinstance(rule, Pin)]
    return {(each.week, each.quality) for pin in pins for each in pin.choices}
