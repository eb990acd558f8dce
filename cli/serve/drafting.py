"""A season made from a fixture list on the page: what was read, what is proposed, the folder."""

import datetime as dt
import re
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Literal
from zoneinfo import ZoneInfo

import tomlkit
from pydantic import Field, field_validator

from cli.files.errors import InputError
from cli.files.fixtures_file import clubs_in, find_fixtures
from cli.files.fixtures_found import FoundFixtures, ListFacts, found_words
from cli.files.fixtures_frame import frame_with_friendlies
from cli.files.fixtures_notices import season_notices
from cli.files.fixtures_priorities import Proposal, best_by_date, proposals
from cli.files.scenario_file import load_scenario
from cli.files.season_name import season_name
from cli.render.clean_text import clean
from cli.render.scenario_text import Draft, scenario_text
from cli.season.folder import SCENARIO, SQUAD
from cli.season.made import make_folder
from cli.serve.answering import sentence
from cli.serve.list_words import list_words
from constraints.spacing import Spacing
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.scenario import PhaseStart
from optimiser.domain.strict import Strict
from optimiser.domain.weekday import Weekday
from optimiser.setup.calendar import PRE_SEASON_WEEKS
from optimiser.setup.frame import OFF_SEASON_WEEKS, Frame, priorities_needed

#: Names of files and folders: what a person may type, without what steers a file system.
SAFE = re.compile(r"[^\w .()-]+")


class Reading(Strict):
    """What a person says about a list that it does not say itself."""

    dates: Literal["", "day-first", "month-first"] = ""
    match: str = Field(default="", max_length=200)
    club: str = Field(default="", max_length=200)
    calendar: str = Field(default="", max_length=200)
    zone: str = Field(default="", max_length=60)
    year: int = Field(default=0, ge=0, le=2100)
    off_season: int = Field(default=OFF_SEASON_WEEKS, ge=0, le=52)
    pre_season: int = Field(default=PRE_SEASON_WEEKS, ge=0, le=52)

    @field_validator("zone")
    @classmethod
    def _check_zone(cls, name: str) -> str:
        try:
            return ZoneInfo(name).key if name else ""
        except (LookupError, ValueError, OSError):
            raise ValueError(
                f"There is no time zone {name}; it must be one such as Europe/Dublin."
            ) from None


class PracticeWish(Strict):
    """Team practice of a phase, as it is usual."""

    days: tuple[Weekday, ...] = Field(default=(), max_length=7)
    time: dt.time | None = None
    minutes: int = Field(default=75, ge=0, le=300)


class Wish(Strict):
    """A season as a person wants it made.

    Parameters
    ----------
    starts
        First weeks (from 1) of the phases, in order.
    earliest, latest
        First and last start of the plan's own sessions; None leaves them open.
    """

    reading: Reading = Reading()
    name: str = Field(min_length=1, max_length=120)
    sport: str = Field(default="", max_length=60)
    priorities: dict[dt.date, Priority] = Field(default_factory=dict)
    starts: tuple[PhaseStart, ...] = ()
    practice: dict[Literal["pre_season", "in_season"], PracticeWish] = Field(default_factory=dict)
    earliest: dt.time | None = None
    latest: dt.time | None = None
    folder: str = Field(default="", max_length=120)


@dataclass(frozen=True)
class ListFile:
    """A fixture list that was handed to the page.

    Parameters
    ----------
    name
        As it was called, for messages.
    """

    name: str
    data: bytes


def safe_name(name: str, usual: str) -> str:
    """Return a name that can be that of a file or folder, inside of where it is put."""
    told = " ".join(SAFE.sub(" ", clean(name)).split()).strip(". ")
    return told[:80] or usual


class Drafting:
    """A fixture list, and the season it can become."""

    def __init__(self, given: ListFile) -> None:
        self.given = given

    def found(self, reading: Reading) -> dict[str, Any]:
        """Return what was understood of the list and what is proposed for the season.

        Of a list that cannot be read it is said why, so that a person can say what it leaves out.
        """
        with TemporaryDirectory() as folder:
            path = self._put(Path(folder))
            try:
                found = self._find(path, reading)
                frame = self._frame(path, found, reading)
            except InputError as error:
                clubs = self._clubs(path)
                if clubs and not reading.club:
                    return {"clubs": clubs, "words": [f"{self.given.name}: a whole league's list."]}
                unread = list_words(sentence(_named(error, self.given.name)))
                return {"words": [], "unread": clean(unread)}
        fixtures = [item.fixture for item in found.listed]
        proposed = _proposed(found, fixtures)
        return {
            "words": [clean(list_words(line)) for line in found_words(self.given.name, found)],
            "notices": [
                list_words(line)
                for line in season_notices(fixtures, _given(fixtures, proposed), frame)
            ],
            "fixtures": [
                _fixture(fixture, proposed)
                for fixture in sorted(fixtures, key=lambda each: each.date)
            ],
            "first": frame.first_monday.isoformat(),
            "weeks": frame.weeks,
            "starts": [start.model_dump(mode="json") for start in frame.phases],
            "name": reading.club or season_name(found, self.given.name, fixtures),
            "ranked": found.ranked,
        }

    def make(self, wish: Wish, where: Path) -> Path:
        """Write a season folder in ``where``, and return its scenario.

        Raises
        ------
        InputError
            If the list cannot be read, or there is such a folder.
        """
        place = where / safe_name(wish.folder or wish.name, "season")
        if place.exists():
            do = "give the season another name, or open the one that is there"
            raise InputError(
                place.name, "", "must be the name of a new folder", "one that is there", do
            )
        with TemporaryDirectory() as folder:
            path = self._put(Path(folder))
            found = self._find(path, wish.reading)
            text = self._text(path, found, wish)
            copied = self._copied(path) if _by_itself(wish.reading, found) else None
            if copied:
                (Path(folder) / copied[0]).write_bytes(copied[1])
            load_scenario(text, Path(folder) / SCENARIO)
        return make_folder(place, text, copied).scenario

    def _put(self, folder: Path) -> Path:
        path = folder / safe_name(self.given.name, "fixtures.csv")
        path.write_bytes(self.given.data)
        return path

    def _find(self, path: Path, reading: Reading) -> FoundFixtures:
        return find_fixtures(
            path,
            ListFacts(
                dates=reading.dates,
                match=reading.match.strip(),
                zone=reading.zone.strip(),
                club=reading.club.strip(),
                calendar=reading.calendar.strip(),
                year=reading.year,
            ),
        )

    def _frame(self, path: Path, found: FoundFixtures, reading: Reading) -> Frame:
        fixtures = [item.fixture for item in found.listed]
        off, pre = reading.off_season, reading.pre_season
        return frame_with_friendlies(path, fixtures, off_season=off, pre_season=pre)

    def _clubs(self, path: Path) -> list[str]:
        try:
            return [clean(club) for club in clubs_in(path)]
        except InputError:
            return []

    def _copied(self, path: Path) -> tuple[str, bytes]:
        return f"fixtures{path.suffix.lower()}", self.given.data

    def _text(self, path: Path, found: FoundFixtures, wish: Wish) -> str:
        fixtures = [item.fixture for item in found.listed]
        frame = self._frame(path, found, wish.reading)
        if wish.starts:
            frame = Frame(frame.first_monday, frame.weeks, wish.starts)
        proposed = _proposed(found, fixtures)
        ranks = wish.priorities or _given(fixtures, proposed)
        draft = Draft(
            name=wish.name,
            sport=wish.sport,
            fixtures_file=self._copied(path)[0] if _by_itself(wish.reading, found) else "",
            fixtures=fixtures,
            frame=frame,
            priorities=ranks or priorities_needed(fixtures),
            proposed={
                date: each.words
                for date, each in best_by_date(proposed).items()
                if ranks.get(date) is each.priority
            },
            notices=[
                *found.notices,
                *season_notices(fixtures, ranks or priorities_needed(fixtures), frame),
            ],
            squad_file=SQUAD,
        )
        return _with_hours(scenario_text(draft), wish)


def _by_itself(reading: Reading, found: FoundFixtures) -> bool:
    """Tell whether a list is understood by its own cells, without what was said about it."""
    said = (
        reading.dates,
        reading.match,
        reading.club,
        reading.calendar,
        reading.zone,
        reading.year,
    )
    return not (any(said) or found.apart)


def _proposed(found: FoundFixtures, fixtures: list[Fixture]) -> list[Proposal]:
    return [] if found.ranked else proposals(fixtures)


def _given(fixtures: list[Fixture], proposed: list[Proposal]) -> dict[dt.date, Priority]:
    best = best_by_date(proposed)
    return {date: item.priority for date, item in best.items()} or priorities_needed(fixtures)


def _fixture(fixture: Fixture, proposed: list[Proposal]) -> dict[str, Any]:
    words = best_by_date(proposed).get(fixture.date)
    return {
        "date": fixture.date.isoformat(),
        "kickoff": None if fixture.kickoff is None else f"{fixture.kickoff:%H:%M}",
        "name": clean(fixture.name),
        "competition": clean(fixture.competition),
        "venue": fixture.venue,
        "priority": (words.priority if words else fixture.priority).value,
        "why": clean(words.words) if words else "",
    }


def _with_hours(text: str, wish: Wish) -> str:
    """Return the scenario with practice and hours, where a person gave them."""
    document: Any = tomlkit.parse(text)
    for phase, practice in wish.practice.items():
        if practice.days:
            table = tomlkit.table()
            table["days"] = [day.value for day in practice.days]
            if practice.time is not None:
                table["times"] = [f"{practice.time:%H:%M}"]
            table["minutes"] = practice.minutes
            document.setdefault("practice", tomlkit.table(is_super_table=True))[phase] = table
    hours = {"earliest": wish.earliest, "latest": wish.latest}
    given = {name: f"{at:%H:%M}" for name, at in hours.items() if at is not None}
    if given:
        rules = document.setdefault("rules", tomlkit.table(is_super_table=True))
        rules[Spacing.name] = given
    return tomlkit.dumps(document)


def _named(error: InputError, name: str) -> InputError:
    """Return an error that names the list as people know it."""
    return InputError(name, error.where, error.must, error.got, error.do)
