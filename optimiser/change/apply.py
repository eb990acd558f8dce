"""Edits made to a scenario and its fixtures, one after the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from optimiser.domain.edits import Edit
from optimiser.domain.edits.work import ScenarioDraft
from optimiser.domain.fixture import Fixture
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Season
from optimiser.setup.build import build_season


@dataclass(frozen=True)
class Changed:
    """A scenario after edits.

    Parameters
    ----------
    pairs
        Every fixture as it was and as it is; None where it was not there, or is no more.
    """

    scenario: Scenario
    season: Season
    pairs: tuple[tuple[Fixture | None, Fixture | None], ...]


def apply_edits(
    scenario: Scenario,
    season: Season,
    edits: Sequence[Edit],
    defaults: Mapping[str, Mapping[str, Any]] | None = None,
) -> Changed:
    """Return the scenario after ``edits``; its fixtures then all stand in the scenario itself.

    Parameters
    ----------
    defaults
        Usual parameters by rule, so that one entry of a table can be set on its own.

    Raises
    ------
    EditError
        If an edit cannot be made: there is no such fixture, the day is taken or outside.
    """
    work = ScenarioDraft(scenario, season, defaults or {})
    for index, edit in enumerate(edits):
        work.index = index
        edit.make(work)
    return _changed(work)


def _changed(work: ScenarioDraft) -> Changed:
    fixtures = tuple(match for entry in work.entries for match in entry.matches)
    changed = work.scenario.model_copy(
        update={
            "fixtures": fixtures,
            "fixtures_file": None,
            "priorities": {},
            "breaks": tuple(work.breaks),
            "rules": work.rules,
        }
    )
    pairs = tuple((entry.was, entry.now) for entry in work.entries)
    return Changed(changed, build_season(changed, fixtures), pairs)
