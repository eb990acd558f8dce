"""A plan document as JSON."""

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.files.errors import InputError, shown
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded
from cli.season.folder import folder_of
from optimiser.domain.document import FORMAT, PlanDocument


def read_document(path: Path) -> PlanDocument:
    """Return the plan document in ``path``.

    Raises
    ------
    InputError
        If it is not JSON, or not a plan.
    """
    data = _parsed(path)
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        got = data.get("format", "no format") if isinstance(data, dict) else data
        raise InputError(
            path, "format", f'must be "{FORMAT}"', shown(got), "name a file that plan wrote"
        )
    try:
        return PlanDocument.model_validate_json(json.dumps(data))
    except ValidationError as error:
        raise InputError.from_pydantic(path, error, PlanDocument) from None


def _parsed(path: Path) -> Any:
    text = read_text(path)
    try:
        return json.loads(text)
    except json.JSONDecodeError as error:
        raise InputError(
            path,
            f"line {error.lineno}",
            "must be JSON",
            f"{error.msg[:1].lower()}{error.msg[1:]} in column {error.colno}",
            "name a file that plan wrote, or take back the change",
        ) from None
    except (RecursionError, ValueError) as error:
        do = "name a file that plan wrote"
        raise InputError(path, "", "must be JSON of a usual kind", str(error), do) from None


def check_season(path: Path, document: PlanDocument, loaded: Loaded) -> None:
    """Raise InputError if the plan was not made for this season as it stands now."""
    made_for = document.scenario
    if made_for.group and not loaded.group:
        known = ", ".join(loaded.scenario.groups)
        must = "must be left out: a plan of the whole squad is needed here"
        if made_for.group not in loaded.scenario.groups:
            must = f"must be one of the groups of {loaded.path} ({known or 'none'})"
        do = "name a plan that `plan` wrote, or plan the groups again"
        raise InputError(path, "scenario.group", must, made_for.group, do)
    if made_for.digest != loaded.digest:
        same = made_for.name == loaded.scenario.name
        must = f"must be that of the season as it stands in {loaded.path}"
        got = f"that of {made_for.name}{' as it stood before' if same else ''}"
        raise InputError(path, "scenario.digest", must, got, _cure(loaded.path))


def _cure(scenario: Path) -> str:
    """Return what to do with a plan whose season has changed since."""
    folder = folder_of(scenario)
    if folder is not None:
        return (
            f"the season was edited since the plan was put in force: `seasonwright replan "
            f"{folder.path}` shows what has to change, and --apply A takes it in"
        )
    return (
        "the scenario or its fixtures have changed since, or it is another season: plan again, or "
        "have `audit` or `replan` take it all the same with --other-season"
    )
