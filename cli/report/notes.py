"""Answers of `prices` and `why`, saved as JSON, as notes of a report."""

import json
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, Discriminator, Tag, TypeAdapter, ValidationError

from cli.files.errors import InputError, shown
from cli.files.read_text import read_text
from cli.report.report import Note
from optimiser.domain.season import Season

#: Broken rules named for one choice at most.
MOST = 2


class _RulePrice(BaseModel):
    rule: str
    safety: bool
    dropped: float | None
    looser: float | None
    step: str | None = None


class _Prices(BaseModel):
    format: Literal["seasonwright.prices/1"]
    season: str
    rules: list[_RulePrice]


class _Breach(BaseModel):
    words: str


class _Choice(BaseModel):
    choice: str
    current: bool
    allowed: bool
    score: float
    breaches: list[_Breach]


class _Why(BaseModel):
    format: Literal["seasonwright.why/1"]
    week: int
    quality: str
    bands: list[_Choice]
    doses: list[_Choice]


_KNOWN = {"seasonwright.prices/1": "prices", "seasonwright.why/1": "why"}
_Answer = Annotated[
    Annotated[_Prices, Tag("prices")] | Annotated[_Why, Tag("why")],
    Discriminator(lambda given: _KNOWN.get(str(given.get("format")), "none")),
]
_ANSWER: TypeAdapter[_Prices | _Why] = TypeAdapter(_Answer)


def read_note(path: Path, season: Season) -> Note:
    """Return the note in ``path``.

    Raises
    ------
    InputError
        If it is not an answer of `prices` or `why`, or one of another season.
    """
    do = "save what `prices --format json` or `why --format json` prints"
    try:
        data = json.loads(read_text(path))
        told = data.get("format") if isinstance(data, dict) else None
        if told not in _KNOWN:
            must = f"must be one of {', '.join(_KNOWN)}"
            raise InputError(path, "format", must, shown(told), do)
        answer = _ANSWER.validate_python(data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = ".".join(map(str, first["loc"][1:]))
        raise InputError(path, where, first["msg"].lower(), shown(first["input"]), do) from None
    except (ValueError, RecursionError) as error:
        raise InputError(path, "", "must be JSON", str(error), do) from None
    if isinstance(answer, _Prices):
        return _prices(path, answer, season)
    return _why(path, answer, season)


def _prices(path: Path, answer: _Prices, season: Season) -> Note:
    if answer.season != season.name:
        do = "work the prices of this season out"
        raise InputError(path, "season", f"must be {season.name}", answer.season, do)
    rows = tuple(
        (
            f"{each.rule}{' !' if each.safety else ''}",
            _gain(each.dropped),
            "" if each.step is None else _gain(each.looser),
            each.step or "",
        )
        for each in answer.rules
    )
    about = (
        "Match score the season would gain without a rule, and with it one step looser. "
        "! keeps people safe: its price is no reason to drop it."
    )
    return Note("What rules cost", about, ("Rule", "Dropped", "One step looser", "Step"), rows)


def _gain(points: float | None) -> str:
    return "not found" if points is None else f"{points:+.1f}"


def _why(path: Path, answer: _Why, season: Season) -> Note:
    names = {quality.key: quality.name for quality in season.qualities}
    if answer.quality not in names or not 1 <= answer.week <= len(season.weeks):
        must = "must be a week and a quality of this season"
        got = f"week {answer.week}, {answer.quality}"
        raise InputError(path, "week", must, got, "ask about this season's plan")
    rows = tuple(
        (
            each.choice,
            "as it is" if each.current else "possible" if each.allowed else "breaks rules",
            "" if each.current else f"{each.score:+.1f}",
            "; ".join(breach.words for breach in each.breaches[:MOST]),
        )
        for each in (*answer.bands, *answer.doses)
    )
    about = "Every other band and dose there, all else as it is, and what it does to the score."
    title = f"Why {names[answer.quality]} in week {answer.week}"
    return Note(title, about, ("Choice", "How", "Match score", "Rules it breaks"), rows)
