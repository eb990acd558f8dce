"""The table of ``docs/results/toughness.md``: a row for each run, replaced by the next one."""

import datetime as dt
from pathlib import Path

RESULTS = Path(__file__).parents[2] / "docs" / "results"
PAGE = RESULTS / "toughness.md"
BEGIN = "| what | how often | what came of it | `python -m tests.benchmarks.` | day |"


def note(what: str, command: str, many: str, found: str) -> None:
    """Write a row, or replace the one of the same command.

    Parameters
    ----------
    command
        Name of the benchmark and what was asked of it.
    """
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    row = f"| {what} | {many} | {found} | `{command}` | {dt.date.today()} |"
    same = [at for at, line in enumerate(lines) if line.startswith(f"| {what} |")]
    if same:
        lines[same[0]] = row
    else:
        rows = [at for at, line in enumerate(lines) if line.startswith("|")]
        lines.insert(rows[-1] + 1, row)
    PAGE.write_text("\n".join(lines) + "\n", encoding="utf-8")
