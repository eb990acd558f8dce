"""Plan many seasons under many rule sets and compare them."""

import sys
import time
from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from functools import partial
from pathlib import Path

import click
import joblib

from cli.files.batch_cases import batch_cases, season_files
from cli.files.results import ENDINGS, check_results, results_csv, row_cells, write_results
from cli.files.row_log import RowLog
from cli.files.rule_sets import AS_WRITTEN, RuleSet, read_rule_sets
from cli.main import BAD_FILE
from cli.options import PATH, FileToWrite, force_option, format_option, jobs_option, out_option
from cli.program_versions import versions
from cli.render.batch_table import batch_progress, batch_text
from cli.render.search_progress import ProgressLine
from cli.saying import save, say_json
from cli.season.argument import today_option
from constraints.load import load_rules
from optimiser.batch.case import Case
from optimiser.batch.engine import Crew
from optimiser.batch.job import USUAL_EFFORT, Solver, season_solver
from optimiser.batch.row import BatchRow
from optimiser.batch.rule_sets import compare_rule_sets
from optimiser.batch.run import run_batch
from optimiser.domain.setup_error import SetupError

#: What a result depends on beside the season and its rules.
SOLVES_WITH = ("seasonwright", "ortools", "highspy")


@click.command("batch")
@click.argument("seasons", nargs=-1, required=True, type=PATH)
@click.option(
    "--rules",
    "rules",
    multiple=True,
    type=PATH,
    help="A file of [rules.NAME] tables laid over each scenario's own; may be given again.",
)
@out_option(
    "Save the table as .parquet, .csv or .json; rows and plans are kept beside it.", *ENDINGS
)
@click.option(
    "--picture",
    metavar="FILE",
    type=FileToWrite(".png", ".svg"),
    help="Save a chart of all rows, best first, as .png or .svg.",
)
@jobs_option
@click.option(
    "--effort",
    type=click.FloatRange(0.05, 10),
    default=USUAL_EFFORT,
    show_default=True,
    help="Share of the bound search that `plan` does for a season; less is quicker, proves less. "
    "A season of up to 16 weeks is searched to its end whatever it is.",
)
@click.option("--resume", is_flag=True, help="Go on with a batch that broke off.")
@force_option("Begin again over the rows of an earlier batch.")
@click.option(
    "--scheduler",
    help="Address of a Dask scheduler (tcp://HOST:8786) whose workers do the work. "
    "Needs pip install 'seasonwright[cluster]' on every machine.",
)
@today_option
@format_option("table", "json", "csv")
@click.pass_context
def batch_command(
    ctx: click.Context,
    seasons: tuple[Path, ...],
    rules: tuple[Path, ...],
    out: Path | None,
    picture: Path | None,
    jobs: int | None,
    effort: float,
    resume: bool,
    force: bool,
    scheduler: str | None,
    form: str,
) -> None:
    """Plan every season in SEASONS (folders or scenario files) under every rule set.

    The rules as written are always one of the sets. Of a season folder that has begun what is over
    stands, and the rest is planned. A file that cannot be used, a clash or a
    process that dies costs its own row; exit code 1 says that a file could not be used.
    """
    _check(out, resume)
    sets = read_rule_sets(rules)
    paths = season_files(seasons, rules)
    solves_with = {name: versions()[name] for name in SOLVES_WITH} | {"effort": f"{effort:g}"}
    found = _read(paths, sets, solves_with)
    crew = _crew(jobs, scheduler)
    ctx.call_on_close(crew.close)
    solver = partial(season_solver, effort=effort)
    rows = _run(found, crew, solver, out, resume=resume, force=force)
    if out is not None:
        write_results(out, rows)
        click.echo(f"Wrote {out}; rows and plans are in {RowLog(out).path}.", err=True)
    if picture is not None:
        _draw(rows, picture)
    _show(rows, form)
    if any(row.status == "bad_file" for row in rows):
        ctx.exit(BAD_FILE)


def _read(
    paths: Sequence[Path], sets: Sequence[RuleSet], solves_with: Mapping[str, str]
) -> list[Case | BatchRow]:
    """Return a case, or a row of a bad file, for every file and rule set; many take a while."""
    line = ProgressLine(sys.stderr)
    found: list[Case | BatchRow] = []
    for number, path in enumerate(paths, 1):
        line.show(f"reading season {number} of {len(paths)}")
        found += batch_cases([path], sets, solves_with)
    line.clear()
    return found


def _check(out: Path | None, resume: bool) -> None:
    if out is None:
        if resume:
            raise click.UsageError("--resume needs --out, beside which the rows are kept")
        return
    check_results(out)


def _draw(rows: Sequence[BatchRow], picture: Path) -> None:
    """Write the chart; matplotlib is loaded only here."""
    from cli.render.pictures.batch import batch_chart
    from cli.render.pictures.save import png_bytes, svg_bytes

    figure = batch_chart(rows, "Seasons and rule sets")
    as_bytes = svg_bytes if picture.suffix.lower() == ".svg" else png_bytes
    save(picture, as_bytes(figure))


def _crew(jobs: int | None, scheduler: str | None) -> Crew:
    try:
        return Crew.at(jobs or joblib.cpu_count(), scheduler)
    except SetupError as error:
        raise click.UsageError(str(error)) from None


def _run(
    found: Sequence[Case | BatchRow],
    crew: Crew,
    solver: Solver,
    out: Path | None,
    *,
    resume: bool,
    force: bool,
) -> list[BatchRow]:
    """Solve the cases, each row on disk as it comes; return all rows in the order asked for."""
    cases = [item for item in found if isinstance(item, Case)]
    bad = [item for item in found if isinstance(item, BatchRow)]
    done: list[BatchRow] = list(bad)
    log = RowLog(out) if out else None
    known = log.known() if log and resume else {}
    with ExitStack() as held:
        if log:
            log.start(resume=resume, force=force)
            held.enter_context(log)
        shown = held.enter_context(Shown(len(found)))
        try:
            for row in run_batch(cases, crew, load_rules, known=known, solver=solver):
                done.append(row)
                new = row.key not in known
                if log and new:
                    log.add(row)
                shown.show(len(done), new=new)
        except (KeyboardInterrupt, SetupError) as error:
            shown.line.clear()
            click.echo(_broken_off(len(done), len(found), log), err=True)
            if isinstance(error, SetupError):
                raise click.ClickException(str(error)) from None
            raise
    place = {(item.file, item.rules): number for number, item in enumerate(found)}
    return sorted(done, key=lambda row: place[row.file, row.rules])


def _broken_off(done: int, total: int, log: RowLog | None) -> str:
    if log is None:
        return f"{done} of {total} rows were done; with --out they would have been kept."
    return f"{done} of {total} rows are kept in {log.path}; --resume goes on from there."


class Shown:
    """The line of progress."""

    def __init__(self, total: int) -> None:
        self.line = ProgressLine(sys.stderr)
        self._total, self._began, self._new = total, time.perf_counter(), 0

    def show(self, done: int, *, new: bool) -> None:
        """Say how far it has come after one more row, ``new`` if it was not there before."""
        self._new += new
        seconds = time.perf_counter() - self._began
        self.line.show(batch_progress(done, self._total, self._new, seconds))

    def __enter__(self) -> "Shown":
        self.line.show(batch_progress(0, self._total, 0, 0))
        return self

    def __exit__(self, *_: object) -> None:
        self.line.clear()


def _show(rows: Sequence[BatchRow], form: str) -> None:
    found = compare_rule_sets(rows, AS_WRITTEN)
    if form == "csv":
        click.echo(results_csv(rows), nl=False)
    elif form == "table":
        click.echo(batch_text(rows, found))
    else:
        rules = [vars(item) for item in found]
        say_json({"rows": [row_cells(row) for row in rows], "rules": rules})
