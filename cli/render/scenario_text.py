"""A scenario as commented TOML."""

import datetime as dt
import json
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, field

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.week_number import index_of
from optimiser.setup.frame import Frame


@dataclass(frozen=True)
class Draft:
    """What a new scenario file says.

    Parameters
    ----------
    fixtures_file
        As seen from the folder of the new file; empty to write the fixtures into it.
    priorities
        Priorities the fixtures do not give themselves.
    proposed
        The words of a match its priority was proposed from, by its date.
    notices
        What stands out in the list.
    squad_file
        As seen from the folder of the new file; empty for none.
    """

    name: str
    sport: str
    fixtures_file: str
    fixtures: Sequence[Fixture]
    frame: Frame
    priorities: dict[dt.date, Priority] = field(default_factory=dict)
    proposed: dict[dt.date, str] = field(default_factory=dict)
    squad_file: str = ""
    notices: Sequence[str] = ()


def scenario_text(draft: Draft) -> str:
    """Return the file that reads back as ``draft``."""
    parts = [_head(draft), _priorities(draft), _phases(draft.frame), _hints(draft.frame)]
    parts += [] if draft.fixtures_file else [_fixtures(draft.fixtures)]
    return "\n\n".join(part for part in parts if part) + "\n"


def toml_string(text: str) -> str:
    """Return ``text`` as a TOML basic string."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _head(draft: Draft) -> str:
    dates = sorted(fixture.date for fixture in draft.fixtures)
    count = f"{len(dates)} matches" if len(dates) > 1 else "1 match"
    lines = [
        f"# Season around {count}, {dates[0]} to {dates[-1]}.",
        *_stands_out(draft.notices),
        "# All that is left out has a default; `seasonwright rules` lists the rules and theirs.",
        f"name = {toml_string(draft.name)}",
        f"sport = {toml_string(draft.sport)}" if draft.sport else '# sport = "hockey"',
        f"first_monday = {draft.frame.first_monday}",
        f"weeks = {draft.frame.weeks}",
    ]
    if draft.fixtures_file:
        lines.append(f"fixtures_file = {toml_string(draft.fixtures_file)}")
    if draft.squad_file:
        lines.append(f"squad_file = {toml_string(draft.squad_file)}")
    return "\n".join(lines)


def _stands_out(notices: Sequence[str]) -> list[str]:
    words = textwrap.TextWrapper(98, initial_indent="# - ", subsequent_indent="#   ")
    told = [line for notice in notices for line in words.wrap(_printable(notice))]
    return ["# What was seen in it, and taken so:", *told] if told else []


def _priorities(draft: Draft) -> str:
    lines = [
        "# Priority of a match by its date, over what the fixtures file says: peak (the one or two"
    ]
    lines += ["# of the year), high (peaked and tapered for too), medium (one easier week) or low."]
    if not draft.priorities:
        return "\n".join([*lines, "# [priorities]", f'# {draft.fixtures[-1].date} = "high"'])
    if draft.proposed:
        lines += ["# These are proposed from the words of the matches. Check that they are right."]
    else:
        lines += [
            "# No match stood above low, so the last one was made high. Check that it is right."
        ]
    given = [_priority(draft, date) for date in sorted(draft.priorities)]
    return "\n".join([*lines, "[priorities]", *given])


def _priority(draft: Draft, date: dt.date) -> str:
    words = _printable(draft.proposed.get(date, ""))
    return f'{date} = "{draft.priorities[date]}"' + (f"  # proposed: {words}" if words else "")


def _printable(words: str) -> str:
    """Return words on one line without signs that may not stand in a comment."""
    return "".join(sign for sign in " ".join(words.split()) if sign.isprintable())


def _fixtures(fixtures: Sequence[Fixture]) -> str:
    return "\n\n".join(_fixture(fixture) for fixture in fixtures)


def _fixture(fixture: Fixture) -> str:
    given = fixture.model_dump(exclude_defaults=True)
    lines = [f"{key} = {_value(value)}" for key, value in given.items()]
    return "\n".join(["[[fixtures]]", *lines])


def _value(value: object) -> str:
    return toml_string(str(value)) if isinstance(value, str) else str(value)


def _phases(frame: Frame) -> str:
    blocks = ["# Each phase lasts until the next one starts; take all of them out to have them"]
    blocks[0] += "\n# follow from the fixtures."
    for start in frame.phases:
        monday = frame.first_monday + dt.timedelta(weeks=index_of(start.first_week))
        blocks.append(
            f'[[phases]]\nphase = "{start.phase}"\nfirst_week = {start.first_week}  # {monday}'
        )
    return blocks[0] + "\n" + "\n\n".join(blocks[1:])


def _hints(frame: Frame) -> str:
    return f"""\
# Days that are not like the others; kind is rest, exams, camp or bye.
# [[breaks]]
# kind = "rest"
# first = {frame.first_monday}
# last = {frame.first_monday + dt.timedelta(days=6)}

# Team practice, which the plan works around; also off_season and pre_season. With days and times
# it is given; without, it is placed. field = "within": field work is the first part of practice.
# [practice.in_season]
# days = ["tuesday", "thursday"]
# times = ["19:00", "18:30"]
# minutes = 75
# rpe = 5
# field = "before"
#
# Hours of the days: when sessions may start, and when the last one is over. school blocks hours
# from Monday to Friday; session_days = 2 keeps own sessions off consecutive days (under 18).
# Where all of the squad are under 18, both are taken so unless they stand here.
# [rules.spacing]
# earliest = "18:00"
# latest = "20:30"
# closes = "22:00"
# school = ["08:00", "15:30"]
# session_days = 2

# [match]
# minutes = 80
# rpe = 8"""
