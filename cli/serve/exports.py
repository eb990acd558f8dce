"""The files that `report` makes, of the plan on the page."""

from pathlib import Path

from cli.carding import CardFiles, week_cards
from cli.files.safe_write import write_bytes
from cli.report.calendar_file import Times
from cli.report.done_note import done_notes
from cli.report.files import KINDS, MadeFile, made_files
from cli.report.report import Report, make_report
from cli.season.plan_bytes import plan_bytes
from cli.serve.asking import shown_side
from cli.serve.keeping import NotNowError
from cli.serve.session import Session
from cli.serve.side import SeasonSide
from optimiser.domain.week_number import index_of

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    ".ics": "text/calendar; charset=utf-8",
    ".json": "application/json",
}


def made(session: Session, kind: str, week: int | None = None) -> MadeFile:
    """Return a file of the plan on the page.

    Parameters
    ----------
    kind
        One of those of `report`, or ``plan``.
    week
        From 1, for the cards of a week.

    Raises
    ------
    NotNowError
        If there is no plan yet, or no such kind.
    """
    side, _ = shown_side(session)
    document = side.document
    assert document is not None
    if kind == "plan":
        return MadeFile("plan.json", plan_bytes(document))
    if kind not in KINDS:
        raise NotNowError("There is no such file to make.")
    if kind == "cards":
        return _cards(side, week or 1)
    return next(iter(made_files(_report(side), frozenset({kind}), Times(None), [])))


def _report(side: SeasonSide) -> Report:
    document, plan = side.document, side.plan
    assert document is not None
    assert plan is not None
    notes = done_notes(side.there) if side.there else []
    return make_report(side.loaded, side.rules, plan, document, notes)


def _cards(side: SeasonSide, week: int) -> MadeFile:
    """Return the cards of a week of the squad; the plan is handed on as a file, as others are."""
    from tempfile import TemporaryDirectory

    if side.loaded.scenario.squad_file is None:
        raise NotNowError("Cards need a squad file: name one in the scenario (squad_file).")
    if not 1 <= week <= len(side.season.weeks):
        raise NotNowError(f"There is no week {week}.")
    document = side.document
    assert document is not None
    files = CardFiles(side.loaded)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "plan.json"
        write_bytes(path, plan_bytes(document))
        cards = week_cards(
            side.loaded, side.rules, index_of(week), files, files.squad.athletes, path
        )
    return next(iter(made_files(_report(side), frozenset({"cards"}), Times(None), cards)))
