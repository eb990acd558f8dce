"""Read a plan, whatever kind of file it is in."""

from collections.abc import Callable, Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.plan_csv import read_plan_csv
from cli.files.plan_json import check_season, read_document
from cli.files.plan_xlsx import read_plan_xlsx
from cli.files.scenario_file import Loaded
from optimiser.domain.document import to_plan
from optimiser.domain.plan import Plan
from optimiser.domain.setup_error import SetupError
from optimiser.rule import Rule

Reader = Callable[[Path, Loaded, Sequence[Rule], bool], Plan]


def read_plan(
    path: Path, loaded: Loaded, rules: Sequence[Rule], *, other_season: bool = False
) -> Plan:
    """Return the plan in ``path``.

    Parameters
    ----------
    loaded
        The season it is read for.
    rules
        Rules in use; they say how many sessions work needs where the file does not.
    other_season
        True if the plan may have been made for another season.

    Raises
    ------
    InputError
        If it is of no known kind, cannot be used, or belongs to another season.
    """
    reader = READERS.get(path.suffix.lower())
    if reader is None:
        known = ", ".join(READERS)
        raise InputError(
            path, "", f"must end in {known}", path.suffix or path.name, "save it as one of these"
        )
    return reader(path, loaded, rules, other_season)


def _json(path: Path, loaded: Loaded, rules: Sequence[Rule], other_season: bool) -> Plan:
    document = read_document(path)
    if not other_season:
        check_season(path, document, loaded)
    try:
        return to_plan(document, loaded.season)
    except SetupError as error:
        raise InputError.from_setup(path, error) from None


def _csv(path: Path, loaded: Loaded, rules: Sequence[Rule], other_season: bool) -> Plan:
    return read_plan_csv(path, loaded.season, rules)


def _xlsx(path: Path, loaded: Loaded, rules: Sequence[Rule], other_season: bool) -> Plan:
    return read_plan_xlsx(path, loaded.season, rules)


#: One line a kind of file.
READERS: dict[str, Reader] = {".json": _json, ".csv": _csv, ".xlsx": _xlsx}
