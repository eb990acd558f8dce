"""Plans of a club's squads put in force: each in the folder that keeps its history."""

from collections.abc import Sequence
from pathlib import Path

from cli.club import ClubMember
from cli.club_seasons import ClubSquad
from cli.files.errors import InputError
from cli.season.club_folder import ClubFolder
from cli.season.club_squads import SquadFiles
from cli.season.commit import Action, check_unchanged, commit
from cli.season.documents import document_in_progress
from cli.season.folder import PLAN, Folder
from cli.season.history import State
from cli.season.plan_bytes import plan_bytes
from optimiser.club.fitting_seasons import Together
from optimiser.club.squad_season import verdict_of
from optimiser.domain.plan import Plan

ACTION = Action("club", "seasons together")


def check_applicable(place: ClubFolder, squads: Sequence[ClubMember]) -> None:
    """Refuse plans that could not be written.

    Raises
    ------
    InputError
        If a plan is in no season folder, and no JSON file inside of the club's folder.
    """
    inside = place.plans()
    for squad in squads:
        if squad.files.folder is None and _name(place, squad.files) not in inside:
            must = "must be that in force of a season folder, or a .json file of the club's own"
            do = "have `plan --out` write it there, and name that in club.toml"
            where = f"plan of {squad.part.name}"
            raise InputError(place.scenario, where, must, str(squad.files.plan), do)


def apply_together(
    place: ClubFolder, seen: State, squads: Sequence[ClubSquad], found: Together
) -> list[Path]:
    """Put plans in force that are others than before; return the folders that keep them.

    A season folder writes its own plan, so that `undo` there takes it back; all other plans are
    written together in the club's folder. Nothing is written where somebody has changed any of
    their files since they were read.

    Raises
    ------
    ChangedMeanwhileError
        If somebody has.
    """
    pairs = zip(squads, found.plans, strict=True)
    changed = [(squad, plan) for squad, plan in pairs if plan != squad.there.lived.plan]
    own: dict[str, bytes] = {}
    writes: list[tuple[Folder, dict[str, bytes], State]] = []
    for squad, plan in changed:
        data, folder = _bytes(squad, plan, found.seconds), squad.files.folder
        if folder is None:
            own[_name(place, squad.files)] = data
        else:
            writes.append((folder, {PLAN: data}, squad.files.seen))
    writes += [(place, own, seen)] if own else []
    for folder, _, stood in writes:
        check_unchanged(folder, stood)
    for folder, files, stood in writes:
        commit(folder, ACTION, files, stood)
    return [folder.path for folder, _, _ in writes]


def _name(place: ClubFolder, files: SquadFiles) -> str:
    """Return a plan's name in the club's folder."""
    path, inside = files.plan, files.plan.is_relative_to(place.path)
    return path.relative_to(place.path).as_posix() if inside else str(path)


def _bytes(squad: ClubSquad, plan: Plan, seconds: float) -> bytes:
    verdict = verdict_of(squad.own, plan, seconds)
    seed = squad.own.settings.seed
    return plan_bytes(document_in_progress(squad.there, squad.rules, plan, verdict, seed))
