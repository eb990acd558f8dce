"""What-if answers, side by side, as text and as plain data."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from cli.files.changes_file import ChangedSeason
from cli.files.scenario_file import Loaded
from cli.render.cell_words import changed_week_words, week_data
from cli.render.least_told import least_told
from cli.render.proof import proof, untold
from cli.render.terminal import bullet, filled, table_text
from cli.render.words import one_digit, one_line
from optimiser.change.ask import Answer
from optimiser.change.binding import Binding
from optimiser.change.side_by_side import At, FixtureRow, at_fixtures, totals
from optimiser.domain.document import SeasonPart
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.plan import Plan
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import weeks_listed
from optimiser.review.describe import season_part
from optimiser.review.rounding import kept, kept_or_none
from optimiser.review.score import match_score

STANDS = "as it stands"
#: Differences smaller than this are not told.
SAME = 0.05


@dataclass(frozen=True)
class Base:
    """The season as it stands: its plan, and what was proven of it if it was just searched."""

    loaded: Loaded
    plan: Plan
    proven: SeasonPart | None


@dataclass(frozen=True)
class ToldChange:
    """One changed season and its answer; ``why_not`` is the clash in words, if there is one."""

    changed: ChangedSeason
    answer: Answer
    why_not: str = ""


def whatif_text(base: Base, told: Sequence[ToldChange]) -> str:
    """Return one table of all changed seasons, then what changes in each."""
    heads = ["", STANDS, *(one_line(each.changed.name, 30) for each in told)]
    rows = [*_summary(base, told), *_fixtures(base, told)]
    table = table_text(rows, heads)
    parts = [f"{one_line(base.loaded.season.name, 80)}: what if", table]
    parts.append(filled(_reading(base, told)))
    parts += [_details(each) for each in told]
    return "\n\n".join(parts)


def _reading(base: Base, told: Sequence[ToldChange]) -> str:
    """Return how to read the table, and which differences the searches leave open."""
    words = "Scores: the share of its readiness target reached at a fixture, 0-100."
    spare = max((_spare(base, each) or 0.0 for each in told), default=0.0)
    if not spare:
        return words
    at_high = spare / max(1, base.loaded.scenario.rates.high)
    return (
        f"{words} The best plans may cost up to {spare:.2f} points less than these, which is "
        f"{at_high:.1f} points of readiness at one high fixture: differences no larger than that "
        "are no difference that this search can tell, and are left out; --thorough to know."
    )


def _spare(base: Base, each: ToldChange) -> float | None:
    """Return the points by which one of two plans may be better than it is; None if unknown."""
    return untold(base.proven, _proven(each))


# --- the table ------------------------------------------------------------------------------


def _summary(base: Base, told: Sequence[ToldChange]) -> list[list[str]]:
    season, plan = base.loaded.season, base.plan
    score, sums = match_score(season, plan), totals(season, plan)
    # what was proven of a plan is not proven of what became of it
    lived = base.proven is not None and base.proven.gap is None
    stands = "in force" if lived else proof(base.proven) or "as saved"
    rows = [["Plan", stands, *(_status(each) for each in told)]]
    if base.proven is not None:
        costs = [_cost(base.proven, each) for each in told]
        rows.append(["Season cost, points", one_digit(base.proven.cost), *costs])
    for name, field in (
        ("Match score", "score"),
        ("- at high fixtures", "at_high"),
        ("- at medium fixtures", "at_medium"),
    ):
        was = getattr(score, field)
        after = [_after(each, field) for each in told]
        rows.append([name, one_digit(was), *(_against(now, was) for now in after)])
    for name, field in (
        ("Training load, AU", "training"),
        ("Load with practice and matches, AU", "load"),
        ("Minutes of own work", "minutes"),
        ("Field sessions", "field"),
        ("Gym sessions", "gym"),
    ):
        rows.append([name, str(getattr(sums, field)), *(_total(each, field) for each in told)])
    rows.append(["Weeks that change", "", *(_weeks(each) for each in told)])
    return rows


def _after(each: ToldChange, field: str) -> float | None:
    found = each.answer.difference
    score: float | None = None if found is None else getattr(found.match_after, field)
    return score


def _status(each: ToldChange) -> str:
    if each.answer.near.status == "planned":
        return proof(_proven(each))
    return {"clash": "none: rules clash", "out_of_time": "none found in time"}[
        each.answer.near.status
    ]


def _proven(each: ToldChange) -> SeasonPart | None:
    verdict = each.answer.near.verdict
    return None if verdict is None else season_part(verdict)


def _cost(was: SeasonPart, each: ToldChange) -> str:
    now = _proven(each)
    if now is None:
        return "-"
    least = max(SAME, untold(was, now) or 0.0)
    return one_digit(now.cost) + signed(now.cost - was.cost, least)


def _against(now: float | None, was: float | None) -> str:
    if now is None or was is None:
        return one_digit(now)
    return one_digit(now) + signed(now - was)


def signed(difference: float, least: float = SAME) -> str:
    """Return a difference in brackets; nothing if it is too small to tell."""
    return "" if abs(difference) < least else f" ({difference:+.1f})"


def _total(each: ToldChange, field: str) -> str:
    found = each.answer.difference
    if found is None:
        return "-"
    now = getattr(found.totals_after, field)
    difference = now - getattr(found.totals_before, field)
    return f"{now}" + (f" ({difference:+d})" if difference else "")


def _weeks(each: ToldChange) -> str:
    return "-" if each.answer.difference is None else str(len(each.answer.difference.weeks))


def _fixtures(base: Base, told: Sequence[ToldChange]) -> list[list[str]]:
    rows: dict[tuple[str, str], list[str]] = {}
    now = at_fixtures(base.loaded.season, base.plan)
    for column, each in enumerate(told):
        for row in _rows_of(each):
            key = _key(row)
            if key not in rows:
                before = now.get(row.was) if row.was else None
                rows[key] = [_named(row.was or row.now), _at(before), *[""] * len(told)]
            least = _least(base, each, row)
            rows[key][2 + column] = _cell(row, now.get(row.was) if row.was else None, least)
    for fixture, at in now.items():
        if fixture.priority is not Priority.LOW:
            key = (fixture.date.isoformat(), fixture.name)
            rows.setdefault(key, [_named(fixture), _at(at), *["-"] * len(told)])
    return [rows[key] for key in sorted(rows)]


def _rows_of(each: ToldChange) -> Sequence[FixtureRow]:
    """Return the fixtures of an answer; without a plan, what they are now and no scores."""
    if each.answer.difference is not None:
        return each.answer.difference.fixtures
    return [
        FixtureRow(was, now, None, None)
        for was, now in each.changed.pairs
        if any(f is not None and f.priority is not Priority.LOW for f in (was, now))
    ]


def _key(row: FixtureRow) -> tuple[str, str]:
    fixture = row.was or row.now
    assert fixture is not None
    return fixture.date.isoformat(), fixture.name


def _named(fixture: Fixture | None) -> str:
    assert fixture is not None
    return f"{fixture.date} {fixture.priority.value:<6} {one_line(fixture.name, 24)}"


def _at(at: At | None) -> str:
    return "" if at is None else f"{at.score:.1f}"


def _least(base: Base, each: ToldChange, row: FixtureRow) -> float:
    """Return the least difference of a score that the searches can tell at a fixture."""
    return max(SAME, least_told(_spare(base, each), base.loaded.scenario.rates, row))


def _cell(row: FixtureRow, before: At | None, least: float) -> str:
    if row.now is None:
        return "not played"
    notes = []
    if row.was is None:
        notes.append("new")
    elif row.was.date != row.now.date:
        notes.append(f"on {row.now.date}")
    if row.was is not None and row.was.priority != row.now.priority:
        notes.append(row.now.priority.value)
    score = "-" if row.after is None else f"{row.after.score:.1f}"
    if row.after is not None and before is not None:
        score += signed(row.after.score - before.score, least)
    return ", ".join([score, *notes])


# --- below ----------------------------------------------------------------------------------


def _details(each: ToldChange) -> str:
    name = one_line(each.changed.name)
    found = each.answer.difference
    if found is None:
        status = each.answer.near.status
        plain = {
            "clash": "no plan keeps all rules (proven).",
            "out_of_time": "no plan was found in time, which proves nothing.",
        }[status]
        return "\n".join([f"{name}: {plain}", *([each.why_not] if each.why_not else [])])
    season = each.changed.loaded.season
    lines = [bullet(changed_week_words(season, row)) for row in found.weeks]
    head = f"{name}: weeks that change" if lines else f"{name}: no week changes."
    return "\n".join([head, *lines, *_notes(each), *_binding_lines(each)])


def _notes(each: ToldChange) -> list[str]:
    was = [was for was, _ in each.changed.pairs if was is not None]
    highs = any(f.priority.great for f in was)
    if highs and not each.changed.loaded.season.weeks_with(Priority.HIGH):
        return [bullet("No high fixture is left, so nothing is peaked for.")]
    return []


def _binding_lines(each: ToldChange) -> list[str]:
    found = each.answer.bindings
    if found is None or not found.looked_at:
        return []
    weeks = weeks_listed(map(number_of, found.looked_at))
    lines = []
    if found.now:
        lines.append(bullet(f"Rules that now bind: {_bound(found.now)}."))
    if found.no_more:
        lines.append(bullet(f"Rules that bind no more: {_bound(found.no_more)}."))
    if not lines:
        lines.append(bullet("No rule binds that did not before."))
    return [*lines, bullet(f"(Looked for in {weeks}: would one dose more break a rule?)")]


def _bound(found: Sequence[Binding]) -> str:
    return "; ".join(
        f"{item.rule} in {weeks_listed(number_of(week) for week, _ in item.weeks)}"
        for item in found
    )


# --- plain data -----------------------------------------------------------------------------


def whatif_data(base: Base, told: Sequence[ToldChange]) -> dict[str, Any]:
    """Return the same as plain data."""
    season = base.loaded.season
    return {
        "format": "seasonwright.whatif/1",
        "scenario": {"name": season.name, "digest": base.loaded.digest},
        "base": {
            "season": None if base.proven is None else base.proven.model_dump(mode="json"),
            "match": _rounded(asdict(match_score(season, base.plan))),
            "totals": asdict(totals(season, base.plan)),
        },
        "changes": [_changed_data(each) for each in told],
    }


def _changed_data(each: ToldChange) -> dict[str, Any]:
    answer, loaded, proven = each.answer, each.changed.loaded, _proven(each)
    data: dict[str, Any] = {
        "name": each.changed.name,
        "digest": loaded.digest,
        "status": answer.near.status,
        "season": None if proven is None else proven.model_dump(mode="json"),
    }
    if each.why_not:
        data["why_not"] = each.why_not
    if answer.difference is not None and answer.bindings is not None:
        data |= {
            "match": _rounded(asdict(answer.difference.match_after)),
            "totals": asdict(answer.difference.totals_after),
            "fixtures": [_fixture_data(row) for row in answer.difference.fixtures],
            "weeks": [week_data(loaded.season, row) for row in answer.difference.weeks],
            "looked_at": [number_of(week) for week in answer.bindings.looked_at],
            "bind_now": _binding_data(answer.bindings.now),
            "bind_no_more": _binding_data(answer.bindings.no_more),
        }
    return data


def _fixture_data(row: FixtureRow) -> dict[str, Any]:
    return {
        "was": None if row.was is None else _short(row.was),
        "now": None if row.now is None else _short(row.now),
        "score_before": None if row.before is None else kept(row.before.score),
        "score_after": None if row.after is None else kept(row.after.score),
    }


def _short(fixture: Fixture) -> dict[str, str]:
    return {
        "date": fixture.date.isoformat(),
        "priority": fixture.priority.value,
        "opponent": fixture.opponent,
    }


def _binding_data(found: Sequence[Binding]) -> list[dict[str, Any]]:
    return [
        {"rule": item.rule, "weeks": {str(number_of(week)): count for week, count in item.weeks}}
        for item in found
    ]


def _rounded(values: dict[str, float | None]) -> dict[str, float | None]:
    return {name: kept_or_none(value) for name, value in values.items()}
