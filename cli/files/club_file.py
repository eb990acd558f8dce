"""A club: its squads, and what they share."""

import datetime as dt
import tomllib
from pathlib import Path
from typing import Literal, Self

from pydantic import Field, ValidationError, model_validator

from cli.files.errors import InputError
from cli.files.read_text import read_text
from optimiser.days.day import minutes_of
from optimiser.days.shared import Pool
from optimiser.domain.strict import Strict

NAME = "club.toml"
Use = Literal["field", "gym", "practice"]
LONGEST_NAME = 60


class SquadPart(Strict):
    """One squad.

    Parameters
    ----------
    name
        What people call it.
    scenario
        Its file, or its season folder, looked for in the club's folder.
    plan
        Its file; left out, the plan in force of a season folder.
    priority
        1 gives way last.
    """

    name: str = Field(min_length=1, max_length=LONGEST_NAME)
    scenario: str = Field(min_length=1, max_length=1000)
    plan: str = Field(default="", max_length=1000)
    priority: int = Field(default=1, ge=1, le=9)


class SharedPart(Strict):
    """A room, a pitch, a thing or a person that squads share.

    Parameters
    ----------
    name
        What people call it.
    uses
        What takes place in it or needs it.
    kind
        ``room`` for rooms, pitches and things, ``person`` for coaches.
    holds
        Squads at once.
    opens, closes
        Its hours, the same every day.
    squads
        Squads it is for; left out, all.
    """

    name: str = Field(min_length=1, max_length=LONGEST_NAME)
    uses: tuple[Use, ...] = Field(min_length=1)
    kind: Literal["room", "person"] = "room"
    holds: int = Field(default=1, ge=1, le=20)
    opens: dt.time = dt.time(7)
    closes: dt.time = dt.time(22)
    squads: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _check_hours(self) -> Self:
        if self.closes <= self.opens:
            raise ValueError(
                f"closes must come after opens (got {self.opens} and {self.closes}); swap them"
            )
        return self


class Club(Strict):
    """A club as its file says it.

    Parameters
    ----------
    name
        What people call it.
    squads
        At least one.
    shared
        Rooms, pitches, things and staff.
    """

    name: str = Field(min_length=1, max_length=120)
    squads: tuple[SquadPart, ...] = Field(min_length=1, max_length=12)
    shared: tuple[SharedPart, ...] = ()

    @model_validator(mode="after")
    def _check_names(self) -> Self:
        names = [squad.name for squad in self.squads]
        unknown = [name for part in self.shared for name in part.squads if name not in names]
        if unknown:
            raise ValueError(
                f"shared squads must be among {', '.join(names)} (got {unknown[0]}); correct it"
            )
        return self

    def pools(self) -> list[Pool]:
        """Return what is shared, with squads by number."""
        numbers = {squad.name: at for at, squad in enumerate(self.squads)}
        return [
            Pool(
                part.name,
                frozenset(part.uses),
                part.holds,
                minutes_of(part.opens),
                minutes_of(part.closes),
                frozenset(numbers[name] for name in part.squads),
            )
            for part in self.shared
        ]


def read_club(folder: Path) -> Club:
    """Return the club of a folder.

    Raises
    ------
    InputError
        If its file cannot be used.
    """
    path = folder / NAME if folder.is_dir() else folder
    text = read_text(path)
    try:
        return Club.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise InputError(path, "", "must be TOML", str(error), "correct the line") from None
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, Club) from None
