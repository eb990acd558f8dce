"""Trends of tests as a table."""

from collections.abc import Sequence

from cli.render.terminal import table_text
from cli.render.words import one_line
from optimiser.athlete.trend import Trend

HEADERS = ("Test", "Who", "Tests", "First", "Last", "Change", "Noise up to", "So")
TOLD = {
    "better": "better",
    "worse": "worse",
    "noise": "within the error: no change to speak of",
    "one test": "one test, no trend",
}
NOTE = (
    "Noise: two tests of the same athlete differ by up to this where nothing has changed (19 of\n"
    "20 cases); for a squad, the half width of the 95 % interval of the mean change. From tests\n"
    "taken twice on one day where there are ten or more, else from usual errors (from memory)."
)


def tests_text(found: Sequence[Trend]) -> str:
    """Return a row for every trend, the squad's first."""
    table = table_text(
        [_row(each) for each in found],
        HEADERS,
        lined=True,
        sides=("left", "left", "right", "right", "right", "right", "right", "left"),
    )
    return f"{table}\n\n{NOTE}"


def _row(each: Trend) -> tuple[str, ...]:
    single = each.tests == 1 and bool(each.athlete)
    return (
        each.test,
        one_line(each.athlete, 30) if each.athlete else f"squad ({each.tests} athletes)",
        str(each.tests) if each.athlete else "",
        f"{each.first:g}" if each.athlete else f"{each.first:.2f}",
        f"{each.last:g}" if each.athlete else f"{each.last:.2f}",
        "" if single else f"{each.change:+.1f} %",
        "" if single else f"{each.noise:.1f} %",
        TOLD[each.verdict],
    )
