"""Planned against done, as a note of a report."""

from cli.render.cell_words import cell_words
from cli.render.done_text import share_words
from cli.report.report import Note
from cli.season.progress import SeasonToday
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.progress.against import WeekAgainst, against

HEADS = ("Week", "Load planned, AU", "Done", "", "Planned readiness", "Now", "Done otherwise")
ABOUT = (
    "Load with practice and matches. Readiness is the planned index: by the plan, and worked anew "
    "from what was done. * nothing recorded: taken as planned."
)


def done_notes(there: SeasonToday) -> list[Note]:
    """Return the note of a season in progress; none where nothing is over."""
    found = against(there.as_planned, there.planned, there.lived).weeks
    rows = tuple(_row(there.as_planned, week) for week in found)
    title = f"Planned and done up to {there.day}"
    return [Note(title, ABOUT, HEADS, rows)] if rows else []


def _row(season: Season, week: WeekAgainst) -> tuple[str, ...]:
    return (
        f"{number_of(week.week)}{'' if week.recorded else '*'}",
        str(week.load_planned),
        str(week.load_done),
        share_words(week),
        f"{week.ready_planned:.1f}",
        f"{week.ready_now:.1f}",
        "; ".join(cell_words(season, cell) for cell in week.cells),
    )
