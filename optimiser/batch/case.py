"""A season and a rule set to be solved, and how two of them are known to be the same."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from optimiser.batch.row import BatchRow, Result
from optimiser.change.decided import Decided
from optimiser.domain.season import Season
from optimiser.rule import Rule

# Names do not change what is best.
NAMES = {"opponent": True, "competition": True}
NOT_SOLVED = {
    "name": True,
    "sport": True,
    "weeks": {"__all__": {"fixtures": {"__all__": NAMES}, "breaks": {"__all__": {"note": True}}}},
}


@dataclass(frozen=True)
class Case:
    """One season under one rule set.

    Parameters
    ----------
    season, file, rules, digest, seed
        See :class:`~optimiser.batch.row.BatchRow`.
    key
        Equal for cases that are one and the same solve.
    season_json
        The season as a worker reads it.
    rules_json
        Tables of rules by name, as a scenario has them.
    loaded
        The rules themselves; they stay in this process.
    decided
        What is over of a season in progress, as text; empty if nothing is.
    """

    season: str
    file: str
    rules: str
    digest: str
    seed: int
    key: str
    season_json: str
    rules_json: str
    loaded: tuple[Rule, ...]
    decided: str = ""

    def row(self, result: Result) -> BatchRow:
        """Return ``result`` under the names of this case."""
        names = {
            name: getattr(self, name)
            for name in ("season", "file", "rules", "digest", "seed", "key")
        }
        return BatchRow.model_construct(**{**dict(result), **names})


def make_case(
    season: Season,
    rules: Sequence[Rule],
    tables: Mapping[str, Any],
    *,
    rules_name: str,
    file: str = "",
    digest: str = "",
    seed: int = 0,
    versions: Mapping[str, str] | None = None,
    decided: Decided | None = None,
) -> Case:
    """Return the case of a season under ``rules``, which are those of ``tables``.

    Parameters
    ----------
    versions
        Of what solves it, by name; a result of other versions is not the same.
    decided
        What is over, in a season in progress.
    """
    over = decided.to_json() if decided else ""
    bare = season.model_dump_json(exclude=NOT_SOLVED)  # type: ignore[arg-type]
    said = [[rule.name, rule.model_dump(mode="json")] for rule in rules]
    parts = [bare, said, seed, dict(versions or {}), *([over] if over else [])]
    return Case(
        season=season.name,
        file=file,
        rules=rules_name,
        digest=digest,
        seed=seed,
        key=hashlib.sha256(_canonical(parts).encode()).hexdigest(),
        season_json=season.model_dump_json(),
        rules_json=_canonical(tables),
        loaded=tuple(rules),
        decided=over,
    )


def _canonical(value: Any) -> str:
    return json.dumps(value, sort_keys=True, separators=(",", ":"), default=str)
