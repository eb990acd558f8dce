"""Processes that are gone without a word, as by kill -9, at any step of a write."""

import os
import shutil
from contextlib import suppress
from itertools import count
from pathlib import Path

from cli.files.errors import InputError
from cli.season import commit as module
from cli.season.commit import open_folder
from cli.season.folder import Folder
from cli.season.history import History, opened

KILLED = 9
#: A file that takes a line for each process killed; with it, no step is passed over.
COUNT = os.environ.get("SEASONWRIGHT_KILLS", "")


def ended_at(point, act):
    """Act in a process that is gone at its ``point``-th step, and return its exit code.

    Steps are the moments before and after each file takes its place, and around each note in the
    history. A process that comes to its end before has another exit code.
    """
    child = os.fork()
    if child:
        return os.WEXITSTATUS(os.waitpid(child, 0)[1])
    steps = count(1)

    def step():
        if next(steps) == point:
            os._exit(KILLED)

    def watched(real):
        def call(*arguments):
            step()
            made = real(*arguments)
            step()
            return made

        return call

    with suppress(BaseException):
        os.replace = watched(os.replace)
        History.begin = watched(History.begin)
        History.stands = watched(History.stands)
        History.add = watched(History.add)
        module._written = watched(module._written)
        act()
        os._exit(0)
    os._exit(1)


def killed_anywhere(folder, act, root, every=1):
    """Act in copies of a folder, killed at one step after another until one comes to its end.

    Yields
    ------
    Folder
        Each copy, as the next command finds it when it has opened it; the last is the whole one.
    """
    for point in count(1, 1 if COUNT else every):
        place = Folder(root / f"killed at {point}")
        if folder.path.exists():
            shutil.copytree(folder.path, place.path)
        code = ended_at(point, lambda place=place: act(place))
        assert code in (KILLED, 0)
        if COUNT and code:
            with Path(COUNT).open("a", encoding="ascii") as landed:
                landed.write(f"{place.path}\n")
        if place.path.exists():
            with suppress(InputError):  # a folder without a season as yet
                open_folder(place.path)
        if place.history.exists():
            with opened(place.history) as history:
                assert history.pending() is None
        yield place
        if code == 0:
            return


def check_whole(folder, act, root, every=1, least=8):
    """Check that a write leaves all or nothing of it wherever it is killed.

    Parameters
    ----------
    least
        The number of kills that must have landed for the test to tell anything.
    """
    before = folder.now() if folder.path.exists() else None
    states = [
        place.now() if place.path.exists() else None
        for place in killed_anywhere(folder, act, root, every)
    ]
    after = states[-1]
    assert after != before
    assert all(state in (before, after) for state in states)
    assert len(states) > least
    assert before in states
    assert after in states[:-1]  # begun and noted, it was finished by who came next
