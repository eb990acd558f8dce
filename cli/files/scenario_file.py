"""A scenario file becomes a season."""

import datetime as dt
import hashlib
import json
import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic.main import IncEx

from cli.files.errors import InputError, first_refused
from cli.files.fixtures_file import read_fixtures_file
from cli.files.known_keys import nearest
from cli.files.listed import Listed
from cli.files.read_text import read_text
from cli.files.squad_ages import young_in
from cli.files.toml_lines import line_of
from optimiser.athlete.library import OwnWork
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Quality
from optimiser.domain.rates import Rates
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Season
from optimiser.domain.setup_error import SetupError
from optimiser.progress.done_session import DoneSession
from optimiser.setup.build import build_season
from optimiser.setup.default_ladders import default_tables
from optimiser.setup.qualities import quality_tables

AT_LINE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
# Where a season is kept, which number it starts from, who works in it with what, and on which
# weekdays and when the team practises does not change the season. Groups have digests of their own.
OUTSIDE = ("fixtures_file", "fixtures", "priorities", "squad_file", "under_18", "seed", "groups")
FOR_CARDS = ("prescriptions", "exercises", "kit", "equipment", "preparation")
WITHOUT_DAYS: dict[str, IncEx | bool] = {
    phase: {"days", "times", "field"} for phase in ("off_season", "pre_season", "in_season")
}
NOT_IN_DIGEST: dict[str, IncEx | bool] = {
    **dict.fromkeys((*OUTSIDE, *FOR_CARDS, "rates"), True),
    "practice": WITHOUT_DAYS,
}


@dataclass(frozen=True)
class Loaded:
    """A scenario read from a file.

    Parameters
    ----------
    scenario
        As written.
    season
        As worked out.
    digest
        SHA-256 in hex of the scenario and its fixtures: two files of one digest are one season.
    path
        The file.
    group
        Whose season it is, where it is that of one group of the squad.
    calendar
        The season of all, where ``season`` is that of one group.
    over
        How many weeks are decided, in a season in progress: nothing can mend what they break.
    done, today
        What the squad, or the group, has done in it, and the day it is.
    planned
        The season and its plan before anything was done.
    """

    scenario: Scenario
    season: Season
    digest: str
    path: Path
    group: str = ""
    calendar: Season | None = None
    over: int = 0
    done: tuple[DoneSession, ...] = ()
    today: dt.date | None = None
    planned: tuple[Season, Plan] | None = None


def read_scenario(path: Path) -> Loaded:
    """Return the season of the scenario file ``path``.

    Raises
    ------
    InputError
        If it or its fixtures file cannot be used.
    """
    return load_scenario(read_text(path), path)


def load_scenario(text: str, path: Path) -> Loaded:
    """Return the season of the scenario ``text``, as if it stood in ``path``."""
    scenario = parse_scenario(text, path)
    _check_qualities(path, text, scenario)
    check_own_work(path, text, scenario)
    if scenario.under_18 is None:
        told = young_in(scenario, Path(path).parent)[1]
        scenario = scenario.model_copy(update={"under_18": told or None})
    listed = _inline(scenario) + _from_file(path, scenario)
    season = _build(path, scenario, listed)
    return Loaded(scenario, season, digest_of(scenario, season), path)


def check_own_work(path: Path, text: str, scenario: Scenario) -> None:
    """Raise InputError if the sets or exercises of a scenario cannot be used."""
    own = {"prescriptions": scenario.prescriptions, "exercises": scenario.exercises}
    try:
        OwnWork.model_validate(own)
    except ValidationError as error:
        where = _line(text, error)
        raise InputError.from_pydantic(path, error, OwnWork, where=where) from None


def parse_scenario(text: str, path: Path) -> Scenario:
    """Return the scenario ``text`` says, before its fixtures file and ladders are looked at."""
    table = parse_toml(text, path)
    try:
        return Scenario.model_validate(table)
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Scenario, where=_line(text, error)) from None


def parse_toml(text: str, path: Path) -> dict[str, Any]:
    """Return the table ``text`` says.

    Raises
    ------
    InputError
        With the line, if it is not TOML.
    """
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        said = str(error)
        found = AT_LINE.search(said)
        line = f"line {found[1]}" if found and found[1] else "the last line" if found else ""
        what = AT_LINE.sub("", said)
        raise InputError(
            path, line, "must be TOML", what[:1].lower() + what[1:], _toml_cure(what)
        ) from None


def digest_of(scenario: Scenario, season: Season) -> str:
    """Return the digest by which a plan knows the season it was made for."""
    whole: dict[str, object] = {
        "scenario": scenario.model_dump(mode="json", exclude=NOT_IN_DIGEST),
        "fixtures": [fixture.model_dump(mode="json") for fixture in season.fixtures],
    }
    if scenario.rates != Rates():
        # plans made before rates could be set still know their season
        whole["rates"] = scenario.rates.model_dump(mode="json")
    # own sets and exercises say how long work takes; seasons without any keep their digest
    own = {"prescriptions": scenario.prescriptions, "exercises": scenario.exercises}
    whole |= {name: table for name, table in own.items() if table}
    canonical = json.dumps(whole, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(canonical.encode("utf-8", "surrogatepass")).hexdigest()


def _toml_cure(what: str) -> str:
    if "overwrite" in what or "twice" in what:
        return "write each key and each table once"
    if "invalid date" in what:
        return "write a day that is in the calendar, such as 2026-09-05"
    return "put text in double quotes, and write key = value"


def _check_qualities(path: Path, text: str, scenario: Scenario) -> None:
    try:
        tables = quality_tables(scenario)
    except SetupError as error:
        raise InputError.from_setup(path, error) from None
    for key, table in tables.items():
        _check_key(path, text, key, table)
        try:
            Quality(key=key, **table)
        except ValidationError as error:
            prefix = ("qualities", key)
            raise InputError.from_pydantic(
                path, error, Quality, prefix, _line(text, error, prefix)
            ) from None


def _check_key(path: Path, text: str, key: str, table: dict[str, Any]) -> None:
    """Raise InputError if a quality without a name looks like a usual one, misspelt."""
    close = None if "name" in table else nearest(key, default_tables())
    if close is not None:
        line = line_of(text, ("qualities", key))
        where = f"line {line}, qualities.{key}" if line else f"qualities.{key}"
        must = "must be one of the usual qualities, or have a name of its own"
        raise InputError(path, where, must, "no name", f"did you mean {close}?")


def _line(text: str, error: ValidationError, prefix: tuple[str | int, ...] = ()) -> str:
    line = line_of(text, (*prefix, *first_refused(error)["loc"]))
    return f"line {line}" if line else ""


def _inline(scenario: Scenario) -> list[Listed]:
    return [
        Listed(fixture, f"fixtures[{number}]")
        for number, fixture in enumerate(scenario.fixtures, 1)
    ]


def _from_file(path: Path, scenario: Scenario) -> list[Listed]:
    if scenario.fixtures_file is None:
        return []
    return read_fixtures_file(path.parent / scenario.fixtures_file)


def _build(path: Path, scenario: Scenario, listed: list[Listed]) -> Season:
    fixtures: list[Fixture] = [item.fixture for item in listed]
    try:
        return build_season(scenario, fixtures)
    except SetupError as error:
        if error.fixture is None:
            raise InputError.from_setup(path, error) from None
        where = listed[error.fixture].where
        inline = error.fixture < len(scenario.fixtures)
        file = path if inline else path.parent / (scenario.fixtures_file or "")
        raise InputError.from_setup(file, error, f"{where}, {error.where}") from None
