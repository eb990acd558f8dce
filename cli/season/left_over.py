"""What a `new` that was ended left beside its place: unfinished folders of a season."""

import os
import re
import shutil
import socket
import time
from contextlib import suppress
from pathlib import Path

from cli.season.folder import HISTORY

#: Tells who is making the folder.
SIGN = "being-made"
#: Seconds after which nobody is making it any more, wherever they are.
LONG = 24 * 3600.0


def sign(beside: Path) -> None:
    """Note in a folder who is making something in it."""
    (beside / SIGN).write_text(f"{socket.gethostname()} {os.getpid()}\n", encoding="utf-8")


def remove_left_over(parent: Path, prefix: str, name: str) -> None:
    """Remove unfinished folders of a season of this name, if they are surely ours and left.

    Ours is a folder named as we name them that holds our sign and nothing else but the season.
    Left it is if who was making it has ended. What cannot be removed stays.
    """
    named = re.compile(rf"{re.escape(prefix)}[a-z0-9_]{{8}}")
    with suppress(OSError):
        for found in sorted(parent.iterdir()):
            if named.fullmatch(found.name) and not found.is_symlink() and _left(found, name):
                shutil.rmtree(found, ignore_errors=True)


def _left(beside: Path, name: str) -> bool:
    inside = {each.name for each in beside.iterdir()}
    season = beside / name
    ours = SIGN in inside <= {SIGN, name} and (
        name not in inside or not any(season.iterdir()) or (season / HISTORY).exists()
    )
    return ours and _ended(beside / SIGN)


def _ended(signed: Path) -> bool:
    """Tell whether the process that signed is no more; of another machine only time tells."""
    if time.time() - signed.stat().st_mtime > LONG:
        return True
    host, _, number = signed.read_text(encoding="utf-8").strip().rpartition(" ")
    if host != socket.gethostname() or os.name != "posix" or not number.isdecimal():
        return False
    try:
        os.kill(int(number), 0)
    except ProcessLookupError:
        return True
    except OSError:
        return False
    return False
