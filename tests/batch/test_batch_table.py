from cli.render.batch_table import batch_progress, batch_text
from optimiser.batch.row import BatchRow
from optimiser.batch.rule_sets import compare_rule_sets


def row(season, rules="as written", status="proven", match=90.0, **more):
    held = match if status == "proven" else None
    return BatchRow(season=season, rules=rules, status=status, match=held, file=season, **more)


def text(*rows):
    return batch_text(rows, compare_rule_sets(rows, "as written"))


def test_plans_are_ranked_and_what_has_none_is_listed():
    told = text(
        row("Lower", match=80), row("Best", match=95.25),
        row("Never", status="clash", why_not="no plan keeps all of: rest, taper"),
        row("Ended", status="killed", why_not="its process was killed"),
    )  # fmt: skip

    assert told.index("Best") < told.index("Lower") < told.index("Without a plan")
    assert told.index("Without a plan") < told.index("Never")
    assert "no plan keeps all of: rest, taper" in told
    assert told.endswith("4 rows of 4 solves, 2 with a plan: 2 proven, 1 rules clash, 1 killed.")


def test_one_rule_set_has_nothing_to_be_compared_with():
    assert "Rule sets" not in text(row("a"), row("b"))


def test_rule_sets_are_compared_season_by_season():
    told = text(row("a", match=80), row("b", match=70), row("a", "strict", match=78.5),
                row("b", "strict", "clash"))  # fmt: skip
    line = next(line for line in told.splitlines() if line.startswith("strict"))

    assert line.split() == "strict 2 1 1 78.5 1 0 0 1 -1.50 -1.50 to -1.50".split()  # noqa: SIM905


def test_a_thousand_rows_are_all_there():
    rows = [row(f"season {at:04d}", match=at / 20) for at in range(1000)]

    told = text(*rows)

    assert all(f"season {at:04d}" in told for at in range(1000))


def test_names_from_files_do_not_steer_the_terminal():
    assert "\x1b" not in text(row("Evil\x1b[2J club"), row("x", status="clash", why_not="\x1b[0m"))


def test_progress_says_rate_and_time_left():
    assert batch_progress(0, 10, 0, 0.0) == "0 of 10 rows"
    assert batch_progress(110, 600, 10, 60.0) == "110 of 600 rows  600 an hour  49 min left"
    assert batch_progress(9, 10, 9, 90.0) == "9 of 10 rows  360 an hour  10 s left"
