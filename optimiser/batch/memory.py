"""Memory of a cluster's workers: kept for the next season instead of given back each time."""

import ctypes
import sys
from contextlib import suppress

#: What glibc's ``mallopt`` calls them, from malloc.h.
TRIM_THRESHOLD, MMAP_THRESHOLD = -1, -3
#: Free bytes at the top that are kept, and size of a block that is mapped on its own.
KEPT, MAPPED = 128 * 2**20, 32 * 2**20


def keep_memory() -> bool:
    """Let this process keep what it frees; return False where that cannot be asked for.

    Dask starts its workers so that they give memory back at every chance. Solvers free and take
    memory all the time, and lose about a tenth of their speed by it (measured).
    """
    if not sys.platform.startswith("linux"):
        return False
    with suppress(OSError, AttributeError):
        mallopt = ctypes.CDLL(None).mallopt
        return bool(mallopt(TRIM_THRESHOLD, KEPT) and mallopt(MMAP_THRESHOLD, MAPPED))
    return False
