"""Estimate how a squad answers to training from its own tests and load."""

from dataclasses import replace
from pathlib import Path

import click

from cli.files.errors import InputError
from cli.files.fit_csv import ListedTests, read_loads, read_tests
from cli.main import BAD_FILE
from cli.options import PATH, format_option, out_option, seed_option
from cli.render.fit import fit_data, fit_table, fit_toml, refusals
from cli.saying import save, say_json
from optimiser.domain.season import Season
from optimiser.response.fit import Fit, fit_quality
from optimiser.response.fragment import refused_by
from optimiser.response.panel import make_panel
from optimiser.response.pooled import fit_panel
from optimiser.response.record import MeasuredResult, make_record
from optimiser.setup.qualities import default_qualities

FATIGUE_SCALE = float(Season.model_fields["fatigue_scale"].default)


@click.command("fit")
@click.argument("tests", type=PATH)
@click.option(
    "--load",
    "log",
    type=PATH,
    help="The load by day: date and load, if wanted quality and athlete. Left out, TESTS has it.",
)
@click.option(
    "--lower",
    multiple=True,
    metavar="QUALITY",
    help="A quality whose result is better when lower, such as a sprint time; may come often.",
)
@seed_option("Same seed, same intervals.", 0)
@format_option("table", "toml", "json", about="How to print it; toml is the piece of a scenario.")
@out_option("Save the piece of a scenario here.")
def fit_command(
    tests: Path,
    log: Path | None,
    lower: tuple[str, ...],
    seed: int,
    form: str,
    out: Path | None,
) -> None:
    """Estimate time constants and gains from dated test results in TESTS and logged load.

    TESTS is a CSV file of date, quality and result; athlete and load may be there too. Eight
    athletes or more with three results each are pooled: one response, a level for each. An estimate
    the data cannot carry is refused, with reasons. Exit code 1: none could be made.
    """
    listed = read_tests(tests)
    if log is not None:
        read_loads(log, listed)
    fits = {
        key: _fit(tests, listed, key, key in _checked(lower, listed), seed)
        for key in sorted(listed.results)
    }
    if out is not None and any(not fit.reasons for fit in fits.values()):
        save(out, fit_toml(fits, FATIGUE_SCALE).encode())
    _show(fits, form)
    if all(fit.reasons for fit in fits.values()):
        raise click.exceptions.Exit(BAD_FILE)


def _checked(lower: tuple[str, ...], listed: ListedTests) -> tuple[str, ...]:
    for key in lower:
        if key not in listed.results:
            known = ", ".join(sorted(listed.results))
            raise click.BadParameter(f"must be one of {known} (got {key})", param_hint="--lower")
    return lower


def _fit(tests: Path, listed: ListedTests, key: str, lower: bool, seed: int) -> Fit:
    results = listed.results[key]
    if lower:
        results = [MeasuredResult(row.date, -row.value, row.athlete) for row in results]
    loads = listed.loads_of(key)
    if not loads:
        must = f"there must be a load for {key}: give --load or a column load"
        raise InputError(tests, "", must, "none", "log the load of each day and name the file")
    try:
        panel = make_panel(results, loads)
        fit = fit_panel(panel, seed) if panel else fit_quality(make_record(results, loads), seed)
    except ValueError as error:
        raise InputError(tests, key, str(error), "", "log the load from before the tests") from None
    return _taken(key, fit)


def _taken(key: str, fit: Fit) -> Fit:
    """Refuse what a default quality of that key could not take."""
    quality = next((each for each in default_qualities() if each.key == key), None)
    if quality is None or fit.estimate is None or fit.reasons:
        return fit
    why = refused_by(quality, fit, FATIGUE_SCALE)
    return replace(fit, reasons=(why,)) if why else fit


def _show(fits: dict[str, Fit], form: str) -> None:
    if form == "json":
        say_json(fit_data(fits))
        return
    if form == "table":
        click.echo(fit_table(fits))
        return
    click.echo(fit_toml(fits, FATIGUE_SCALE), nl=False)
    for words in refusals(fits):
        click.echo(words, err=True)
