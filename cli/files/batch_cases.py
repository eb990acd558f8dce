"""From the files of a batch to its cases, and rows for files that cannot be used."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.rule_sets import RuleSet, under
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.season.commit import open_folder
from cli.season.folder import SCENARIO, folder_of
from cli.season.progress import SeasonToday, begun
from optimiser.batch.case import Case, make_case
from optimiser.batch.row import BatchRow


def season_files(named: Sequence[Path], but: Sequence[Path]) -> list[Path]:
    """Return the scenario files among ``named``: files as they are, of folders every .toml.

    A folder without one may hold season folders.

    Parameters
    ----------
    but
        Rule sets, which are no scenarios even if they lie in such a folder.

    Raises
    ------
    InputError
        If there is none.
    """
    found = [path for each in named for path in _files(each)]
    known = {path.resolve() for path in but}
    unique = {path.resolve(): path for path in reversed(found) if path.resolve() not in known}
    if not unique:
        raise InputError(
            named[0], "", "must hold scenario files", "no file ending in .toml", "name another"
        )
    return [path for path in found if unique.pop(path.resolve(), None)]


def batch_cases(
    paths: Sequence[Path], sets: Sequence[RuleSet], versions: Mapping[str, str]
) -> Iterator[Case | BatchRow]:
    """Yield a case for every file under every rule set, or a row that says why there is none."""
    for path in paths:
        try:
            folder = folder_of(path)
            if folder is not None:
                open_folder(folder.path)
            loaded = read_scenario(path)
            there = begun(loaded, read_rules(loaded))
        except InputError as error:
            for rules in sets:
                yield _bad(path, _name(path), rules, error)
            continue
        for rules in sets:
            yield _case(path, loaded, rules, versions, there)


def _name(path: Path) -> str:
    """Return what a file that cannot be read is called: a season folder by its own name."""
    return path.parent.name if path.name == SCENARIO else path.stem


def _files(path: Path) -> list[Path]:
    """Return the scenarios of a folder, or those of the season folders in it."""
    if not path.is_dir():
        return [path]
    return sorted(path.glob("*.toml")) or sorted(path.glob(f"*/{SCENARIO}"))


def _case(
    path: Path,
    loaded: Loaded,
    rules: RuleSet,
    versions: Mapping[str, str],
    there: SeasonToday | None,
) -> Case | BatchRow:
    held = under(loaded, rules)
    try:
        ready = read_rules(held)
    except InputError as error:
        return _bad(path, loaded.season.name, rules, error)
    return make_case(
        there.loaded.season if there else loaded.season,
        ready,
        held.scenario.rules,
        rules_name=rules.name,
        file=str(path),
        digest=held.digest,
        seed=loaded.scenario.seed,
        versions=versions,
        decided=there.decided if there else None,
    )


def _bad(path: Path, season: str, rules: RuleSet, error: InputError) -> BatchRow:
    return BatchRow(
        status="bad_file",
        why_not=error.paragraph(),
        season=season,
        file=str(path),
        rules=rules.name,
    )
