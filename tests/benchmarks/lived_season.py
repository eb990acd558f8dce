"""Live a season with all qualities and whole searches."""

import tempfile
import time
from pathlib import Path

from tests.season.lived_season import WEEKS, live_season


def main() -> None:
    """Live it, and say how long that took."""
    began = time.perf_counter()
    with tempfile.TemporaryDirectory() as root:
        club = live_season(Path(root), few=False)
        print(f"{WEEKS} weeks, {len(club.lines)} records: {time.perf_counter() - began:.0f} s")


if __name__ == "__main__":
    main()
