"""Trends of tests as a table."""

from collections.abc import Sequence

from cli.render.terminal import filled, table_text
from cli.render.words import one_line
from optimiser.athlete.measured import read_by_cards
from optimiser.athlete.trend import Trend
from optimiser.domain.wording import listed

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

READ = "Cards read squat_1rm_kg, squat_5rm_kg, split_10_m_s, sled_50_loss_pct, body_mass_kg."


def tests_text(found: Sequence[Trend]) -> str:
    """Return a row for every trend, the squad's first."""
    table = table_text(
        [_row(each) for each in found],
        HEADERS,
        lined=True,
        sides=("left", "left", "right", "right", "right", "right", "right", "left"),
    )
    parts = [table, NOTE, _trends_alone(found)]
    return "\n\n".join(filter(None, parts))


def _trends_alone(found: Sequence[Trend]) -> str:
    """Name the tests that set no load: a name that is nearly right would else pass unseen."""
    free = [test for test in dict.fromkeys(each.test for each in found) if not read_by_cards(test)]
    if not free:
        return ""
    return filled(f"Trends alone, no card works with them: {listed(free)}. {READ}")


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
