from click.testing import CliRunner

from cli.main import main

LEAGUE = """\
name = "Crowded"
first_monday = 2026-09-07
weeks = 14
"""


def _planned(folder, days):
    rows = [
        f'{{ date = 2026-10-{day:02d}, opponent = "R", priority = "{rank}" }}' for day, rank in days
    ]
    path = folder / "crowded.toml"
    path.write_text(LEAGUE + f"fixtures = [ {', '.join(rows)} ]\n")
    return " ".join(CliRunner().invoke(main, ["plan", str(path)]).stdout.split())


def test_a_poor_plan_is_called_poor_at_the_top_with_the_reason(tmp_path):
    days = [(day, "low") for day in range(1, 31, 2)]

    said = _planned(tmp_path, [*days[:-1], (29, "high")])

    assert said.startswith("A POOR PLAN: planned readiness reaches ")
    assert "seasonwright prices" in said
    helps = said.partition("What would help most: ")[2].partition("`")[0]
    assert not any(rule in helps for rule in ("spacing", "taper", "congestion", "reentry"))
