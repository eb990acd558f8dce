"""The groups of a season's squad file, and records of what was done that name one of them."""

from collections.abc import Iterable, Sequence

from cli.files.own_work import squad_at
from cli.files.scenario_file import Loaded
from cli.files.squad import lists_nobody
from optimiser.domain.group import Group
from optimiser.progress.done_session import DoneSession
from optimiser.progress.recorded import group_records


def athletes_by_group(loaded: Loaded) -> dict[str, list[str]]:
    """Return the names of the scenario's squad file by group; none without one.

    Raises
    ------
    InputError
        If it cannot be used.
    """
    name = loaded.scenario.squad_file
    path = None if name is None else loaded.path.parent / name
    if path is None or not path.is_file() or lists_nobody(path):
        return {}
    found: dict[str, list[str]] = {}
    for athlete in squad_at(path, loaded).athletes:
        found.setdefault(str(athlete.group), []).append(athlete.name)
    return found


def group_of(loaded: Loaded) -> dict[str, str]:
    """Return the group of every athlete of the squad file, by name in small letters.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    athletes = athletes_by_group(loaded)
    return {name.casefold(): group for group, names in athletes.items() for name in names}


def strangers(loaded: Loaded, names: Iterable[str]) -> list[str]:
    """Return those who are neither the squad nor a group, nor in the squad file; none without one.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    athletes = group_of(loaded)
    known = {*athletes, *Group}
    told = dict.fromkeys(name for name in names if name.casefold() not in known)
    return list(told) if athletes else []


def of_group(loaded: Loaded, sessions: Sequence[DoneSession]) -> list[DoneSession]:
    """Return what the group of a loaded season did."""
    share = loaded.scenario.groups[Group(loaded.group)].match_share
    return group_records(
        sessions, loaded.group, athletes_by_group(loaded).get(loaded.group, ()), share
    )


def by_athlete(loaded: Loaded, sessions: Sequence[DoneSession]) -> list[DoneSession]:
    """Return records with those of a group told as its athletes', but for who has one of his own.

    A group of which the squad file lists nobody keeps its record.
    """
    groups = {name for name in Group if any(each.who.casefold() == name for each in sessions)}
    groups.discard(Group.SQUAD)
    if not groups:
        return list(sessions)
    athletes = athletes_by_group(loaded)
    own = {(each.who.casefold(), each.date, each.what) for each in sessions}
    found: list[DoneSession] = []
    for each in sessions:
        names = athletes.get(each.who.casefold(), ()) if each.who.casefold() in groups else ()
        found += (
            [
                each.model_copy(update={"who": name})
                for name in names
                if (name.casefold(), each.date, each.what) not in own
            ]
            if names
            else [each]
        )
    return found
