"""Write docs/evidence.md from the claims: ``python tests/evidence/evidence_table.py``."""

import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from evidence_claims import CLAIMS, Claim  # noqa: E402

PAGE = ROOT / "docs" / "evidence.md"
HEAD = """# Evidence

What others published, beside what this program works out. Made by
`python tests/evidence/evidence_table.py`; a test fails when a row is no longer true. Figures of
planned seasons are rounded, as they move a little with every change of the search. Rows that
differ from their source are kept, with the reason. Longer lists of published values (sprint splits,
repetition tables, fixture lists that were played) are checked in `tests/evidence/` one by one.

Group means of trained adults, mostly men and often footballers, say little of one athlete.

| claim | source | what it studied | what we compute | ours | published | result | how sure |
|---|---|---|---|---|---|---|---|
"""


def figure(claim: Claim) -> str:
    """Return our figure, a planned season's to two digits."""
    digits = 2 if claim.solved else 4
    value = float(f"{claim.value():.{digits}g}")
    return f"{value:g} {claim.unit}"


def between(claim: Claim) -> str:
    """Return what the source allows."""
    ends = f"{claim.low:g}" if claim.low == claim.high else f"{claim.low:g} to {claim.high:g}"
    return f"{ends} {claim.unit}"


def row(claim: Claim) -> str:
    """Return one line of the table."""
    source = claim.published
    result = "agrees" if claim.agrees else "differs"
    cells = (
        claim.says,
        source.words(),
        source.studied,
        claim.ours,
        figure(claim),
        between(claim),
        f"{result}: {claim.note}" if claim.note else result,
        "figures seen" if source.seen == "seen" else source.seen,
    )
    return "| " + " | ".join(cells) + " |"


def page() -> str:
    """Return the whole page."""
    return HEAD + "\n".join(map(row, CLAIMS)) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
