import json
import re
import shutil

import pytest
from click.testing import CliRunner
from group_seasons import SHORT, TABLES

import cli.commands.groups
from cli.files.plan_json import read_document
from cli.main import main
from cli.render.audit_text import audit_text
from cli.render.audit_verdict import broken
from cli.season import applying
from cli.season.commit import commit
from cli.season.folder import Folder
from optimiser.domain.breach import Breach
from optimiser.domain.sentence import Sentence
from optimiser.groups.days_together import shared_days
from optimiser.groups.solve import GroupsOutcome
from tests.season.killed import check_whole


def run(command, *arguments):
    return CliRunner().invoke(main, [command, *map(str, arguments)])


@pytest.fixture
def folder(short_folder):
    return short_folder[0]


@pytest.fixture
def planned(short_folder):
    return short_folder[1]


@pytest.fixture
def found_before(monkeypatch, three):
    """What was found once stands for the search: only how it is told is looked at."""
    monkeypatch.setattr(cli.commands.groups, "solve_groups", lambda *_, **__: three[1])
    monkeypatch.setattr(cli.commands.groups, "shared_days", days_found)


#: Shared days by plans, looked for once.
DAYS = {}


def days_found(makers, plans, over):
    """Return the shared days of plans that are found anew for the same season."""
    key = (tuple(plans), over)
    if key not in DAYS:
        DAYS[key] = shared_days(makers, plans, over)
    return DAYS[key]


def plan_of(folder, group):
    return json.loads((folder / "plans" / f"{group}.json").read_text())


def test_there_is_one_plan_a_group_and_it_says_whose_it_is(folder, planned):
    names = ["non-playing", "returning", "starters"]

    assert sorted(path.stem for path in (folder / "plans").iterdir()) == names
    assert [plan_of(folder, name)["scenario"]["group"] for name in names] == names
    assert {plan_of(folder, name)["season"]["decided_by"] for name in names} <= {"proof", "gap"}
    assert len({plan_of(folder, name)["scenario"]["digest"] for name in names}) == 3
    assert planned.stderr.count("Wrote ") == 3


def test_the_table_sets_the_groups_side_by_side(planned):
    text = planned.stdout

    assert text.startswith("Brookmere Autumn: 3 groups, 7 weeks from 2026-08-31, ")
    assert "\nThe season costs " in text
    assert re.search(r"\n(No plan that keeps these rules|Proven best:)", text)
    assert "\nreturning           1      0 %       1          4" in text
    assert "Weeks in which doses differ:" in text
    assert "H Sat 2026-10-17" in text
    assert text.count("Care:") == 1


def test_lines_fit_a_wide_terminal(planned):
    assert max(map(len, planned.stdout.splitlines())) <= 120


def test_athletes_of_groups_without_a_plan_are_told(planned):
    assert "1 athlete in groups without a plan of their own (squad)" in planned.stderr


def test_json_has_every_group_with_its_whole_plan(folder, planned, found_before):
    told = json.loads(run("groups", folder / "short.toml", "--format", "json").stdout)

    assert told["format"] == "seasonwright.groups/1"
    assert told["season"]["decided_by"] in ("proof", "gap")
    assert [group["name"] for group in told["groups"]] == ["starters", "non-playing", "returning"]
    assert [group["match_share"] for group in told["groups"]] == [1.0, 0.0, 0.0]
    weeks = told["groups"][1]["plan"]["weeks"]
    assert weeks == plan_of(folder, "non-playing")["weeks"]
    assert {week["load"]["matches"] for week in weeks} == {0}


def test_plain_signs_on_request(folder, planned, found_before):
    assert run("groups", folder / "short.toml", "--ascii").stdout.isascii()


def test_a_plan_of_a_group_is_read_back_with_its_own_season(folder, planned):
    path = folder / "plans" / "non-playing.json"

    audit = run("audit", folder / "short.toml", path, "--no-optimum", "--format", "json")
    week = run("week", folder / "short.toml", path, "--week", 5, "--format", "json")

    assert audit.exit_code == week.exit_code == 0
    read = json.loads(audit.stdout)["plan"]
    assert read["breaches"] == []
    assert read["match"] == plan_of(folder, "non-playing")["match"]
    match = next(day["match"] for day in json.loads(week.stdout)["days"] if day["match"])
    assert match["load"] == 0


def test_audit_holds_a_group_that_comes_back_to_re_entry(folder, planned, tmp_path):
    late = plan_of(folder, "returning")
    for week in late["weeks"]:
        if week["qualities"]["sprint"]["band"]:
            week["qualities"]["sprint"] |= {"band": "S4", "rung": 4}
    (tmp_path / "late.json").write_text(json.dumps(late))

    told = run("audit", folder / "short.toml", tmp_path / "late.json", "--no-optimum")

    assert told.exit_code == 1
    assert "Sprint restarts at rung 4 in week 4" in told.stdout


def test_audit_lists_what_a_group_that_comes_back_is_let_off(folder, planned):
    told = read_document(folder / "plans" / "returning.json")
    says = Sentence("the block of {week} lasts 1 week", 3)
    late = Breach(rule="blocks", week=3, excess=2, says=says)

    text = audit_text("late.json", told, None, broken((), ()), None, waived=[late])

    assert "Waived, as the group joins in the middle of the season:\n  blocks: the block of" in text


def test_cards_of_a_group_that_comes_back_restart_at_the_rules_rung(folder, planned, tmp_path):
    late = plan_of(folder, "returning")
    for week in late["weeks"]:
        if week["qualities"]["sprint"]["band"]:
            week["qualities"]["sprint"] |= {"band": "S4", "rung": 4, "dose": "touch"}
    (tmp_path / "late.json").write_text(json.dumps(late))
    words = [folder / "short.toml", tmp_path / "late.json", "--squad", folder / "squad.csv"]

    found = []
    for week in (4, 5, 6):
        asked = ["--week", week, "--athlete", "Petra Wynnick", "--format", "json"]
        (made,) = json.loads(run("cards", *words, *asked).stdout)["cards"]
        found.append(next(p["code"] for p in made["sections"] if p["quality"] == "Sprint"))
    assert found == ["S2", "S3", "S4"]


def test_a_group_that_changed_since_has_to_be_planned_again(folder, planned):
    other = folder / "other.toml"
    other.write_text((SHORT + TABLES).replace("match_share = 0\n", "match_share = 0.3\n"))

    result = run("audit", other, folder / "plans" / "non-playing.json", "--no-optimum")

    assert result.exit_code == 1
    assert "scenario.digest" in result.stderr


def test_notes_and_weights_leave_a_plan_of_a_group_good(folder, planned):
    other = folder / "noted.toml"
    other.write_text(SHORT + TABLES.replace("non-playing]", 'non-playing]\nnote = "x"\nweight = 3'))

    path = folder / "plans" / "non-playing.json"
    assert run("audit", other, path, "--no-optimum").exit_code == 0


# --- cards ----------------------------------------------------------------------------------


def cards(folder, *more, week=5):
    plans = ("--plans", folder / "plans", "--squad", folder / "squad.csv")
    return run("cards", folder / "short.toml", *plans, "--week", week, *more)


def test_cards_have_the_plan_of_each_athletes_own_group(folder, planned):
    asked = ("--athlete", "Maren Holloway", "--athlete", "Petra Wynnick", "--format", "json")
    first, late = json.loads(cards(folder, *asked).stdout)["cards"]

    for card, group in ((first, "starters"), (late, "returning")):
        planned_doses = {
            key: part["dose"]
            for key, part in plan_of(folder, group)["weeks"][4]["qualities"].items()
            if part["dose"] != "none"
        }
        assert sorted(s["dose"] for s in card["sections"]) == sorted(planned_doses.values())
    assert [s["dose"] for s in first["sections"]] != [s["dose"] for s in late["sections"]]


def test_cards_of_a_week_before_the_group_joins_are_empty(folder, planned):
    found = json.loads(
        cards(folder, "--athlete", "Petra Wynnick", "--format", "json", week=2).stdout
    )

    assert found["cards"][0]["sections"] == []


def test_an_athlete_without_a_group_plan_needs_another_plan(folder, planned):
    refused = cards(folder, "--athlete", "Saffi Penrose")
    taken = cards(folder, folder / "plans" / "starters.json", "--athlete", "Saffi Penrose")

    assert refused.exit_code == 1
    assert "squad.json: must be there for Saffi Penrose, group squad" in refused.stderr
    assert taken.exit_code == 0, taken.output


def test_cards_need_some_plan(folder):
    result = run("cards", folder / "short.toml", "--squad", folder / "squad.csv", "--week", 1)

    assert result.exit_code == 2
    assert "--plans" in result.stderr


# --- in mid-season --------------------------------------------------------------------------


DONE = """date,who,what,minutes,rpe,dose
2026-09-01,squad,max_strength,30,6,
2026-09-02,starters,practice,120,8,
2026-09-07,starters,sprint,40,8,
2026-09-08,non-playing,max_strength,,,missed
2026-09-09,Odile Marchetti,general_strength,,,missed
"""


@pytest.fixture(scope="module")
def in_progress(short_folder, tmp_path_factory):
    """A season folder in its third week, with the groups' plans in force, planned on."""
    folder = short_folder[0]
    made = tmp_path_factory.mktemp("begun")
    (made / "season.toml").write_text('squad_file = "squad.csv"\n' + SHORT + TABLES)
    shutil.copy(folder / "squad.csv", made)
    shutil.copytree(folder / "plans", made / "groups")
    (made / "done.csv").write_text(DONE)
    before = {path.name: json.loads(path.read_text()) for path in (made / "groups").iterdir()}
    result = run("groups", made, "--today", "2026-09-14", "--apply")
    assert result.exit_code == 0, result.output
    return made, before, result


def test_the_plans_of_groups_are_put_in_force_together_wherever_that_is_killed(
    in_progress, found_before, tmp_path, monkeypatch
):
    club = tmp_path / "club"
    shutil.copytree(in_progress[0], club)
    (club / "done.csv").write_text(DONE.splitlines()[0])
    before, kept = {path.name: path.read_bytes() for path in (club / "groups").iterdir()}, []
    monkeypatch.setattr(applying, "commit", lambda *given: kept.append(given) or 0)
    asked = ("--today", "2026-08-30", "--close", "2026-09-29", "--apply")
    told = run("groups", club, *asked)
    assert told.exit_code == 0, told.output
    assert {path.name: path.read_bytes() for path in (club / "groups").iterdir()} == before
    ((_, action, changes, seen),) = kept

    check_whole(Folder(club), lambda place: commit(place, action, changes, seen), tmp_path, 2)

    assert set(changes) == {"season.toml", *(f"groups/{name}" for name in before)}


def test_what_each_group_did_stands_and_is_its_own(in_progress):
    folder, before, result = in_progress
    now = {name: json.loads((folder / "groups" / name).read_text()) for name in before}

    assert "Weeks 1 to 2 stand as they were done; those to come are planned for" in result.stdout
    for name, plan in now.items():
        old = before[name]["weeks"]
        kept = [(w["sessions"], {k: q["dose"] for k, q in w["qualities"].items()}) for w in old]
        here = [
            (w["sessions"], {k: q["dose"] for k, q in w["qualities"].items()})
            for w in plan["weeks"]
        ]
        assert here[:2] == kept[:2], name
    loads = {name: [week["load"]["total"] for week in plan["weeks"]] for name, plan in now.items()}
    assert loads["starters.json"][0] > loads["non-playing.json"][0]
    done = now["non-playing.json"]["weeks"][1]["done"]["doses"]
    assert (done["max_strength"], done["general_strength"]) == ("none", "none")
    assert now["starters.json"]["weeks"][1]["done"]["doses"]["sprint"] == "full"


def test_weeks_to_come_are_planned_for_all_groups_together(in_progress):
    folder, before, _ = in_progress
    plans = [json.loads((folder / "groups" / name).read_text()) for name in before]

    for weeks in list(zip(*(plan["weeks"] for plan in plans), strict=True))[3:]:
        assert len({tuple(sorted(week["sessions"].items())) for week in weeks}) == 1
        assert len({week["block"] is None for week in weeks}) == 1
    ahead = [b for plan in plans for b in plan["breaches"] if b["week"] is None or b["week"] > 2]
    assert ahead == []


def test_a_groups_plan_is_audited_by_what_the_group_did(in_progress):
    folder, _, _ = in_progress
    told = {}
    for name in ("starters", "non-playing"):
        path = folder / "groups" / f"{name}.json"
        asked = [folder, path, "--today", "2026-09-14", "--no-optimum", "--format", "json"]
        told[name] = json.loads(run("audit", *asked).stdout)["plan"]["match"]
        assert told[name] == json.loads(path.read_text())["match"]


def test_what_was_done_stands_against_the_plan_of_each_group_and_of_its_athletes(in_progress):
    folder, _, _ = in_progress
    today = ("--today", "2026-09-14")

    told = run("done", folder, *today).stdout
    of_one = json.loads(run("done", folder, "--athlete", "odile marchetti", *today,
                            "--format", "json").stdout)  # fmt: skip
    all_of_them = run("done", folder, "--athlete", "all", *today).stdout

    assert "planned and done, starters" in told
    assert "planned and done, non-playing" in told
    week = of_one["weeks"][1]["otherwise"]
    assert of_one["who"] == "Odile Marchetti"
    assert {each["done"] for each in week.values()} == {"nothing"}
    assert set(week) == {"max_strength", "general_strength"}
    assert "Maren Holloway" in all_of_them
    assert "must have a plan in force" in run("done", folder, "--group", "squad", *today).stderr


def test_a_whole_session_is_shared_out_as_the_plan_of_the_athletes_group_has_it(
    in_progress, tmp_path
):
    shutil.copytree(in_progress[0], tmp_path / "club")
    asked = ("--date", "2026-09-16", "--what", "gym", "--minutes", 60, "--rpe", 6)

    run("done", tmp_path / "club", "--today", "2026-09-17", "--who", "Odile Marchetti", *asked)

    rows = (tmp_path / "club" / "done.csv").read_text().splitlines()[len(DONE.splitlines()) :]
    assert rows
    assert all("Odile Marchetti" in row and "part of a gym session" in row for row in rows)


def test_a_group_is_named_where_a_plan_is_and_its_week_counts_its_own_athletes(in_progress):
    folder, _, _ = in_progress
    today = ("--week", 5, "--today", "2026-09-14")

    assert "Non-playing: all 1 are there." in run("week", folder, "non-playing", *today).stdout
    nameless = run("week", folder, *today)
    assert nameless.exit_code == 2
    assert "Name PLAN: starters or non-playing or returning" in " ".join(nameless.stderr.split())


def test_a_match_is_moved_for_all_groups_at_once(in_progress, three, tmp_path, monkeypatch):
    shutil.copytree(in_progress[0], tmp_path / "club")
    moved = ("--today", "2026-09-14", "--move", "2026-10-03=2026-10-04")
    asked = ("groups", tmp_path / "club", *moved)
    # what is looked at is what is written, not the search
    monkeypatch.setattr(cli.commands.groups, "solve_groups", lambda *_, **__: three[1])
    before = (tmp_path / "club" / "season.toml").read_text()

    refused = run(*asked, "-o", tmp_path / "plans")
    looked = run(*asked)
    same = (tmp_path / "club" / "season.toml").read_text()
    applied = run(*asked, "--apply")

    assert refused.exit_code == 2
    assert "--apply writes both" in refused.stderr
    assert (looked.exit_code, same) == (0, before)
    assert applied.exit_code == 0, applied.output
    assert "2026-10-04" in (tmp_path / "club" / "season.toml").read_text()
    late = run("groups", tmp_path / "club", "--today", "2026-09-14", "--close", "2026-09-05")
    assert "must not lie before today" in late.stderr


def test_the_groups_plans_are_taken_back_together(in_progress):
    folder, before, _ = in_progress

    result = run("undo", folder, "--today", "2026-09-14")

    assert result.exit_code == 0, result.output
    assert "groups/non-playing.json, groups/returning.json, groups/starters.json" in result.stdout
    now = {name: json.loads((folder / "groups" / name).read_text()) for name in before}
    assert now == before


# --- trouble --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tables", "told"),
    [
        ("", "groups: must be given for plans by group (got none)"),
        ("[groups.benched]", "line 10, groups.benched: must be 'starters', 'squad'"),
        ("[groups.squad]\nmatch_share = 1.4", "line 11, groups.squad.match_share: must be at most"),
        ("[groups.squad]\nmatch_share = '40 %'", "must be a number"),
        ("[groups.squad]\nmatch_share = true", "must be a number (got true)"),
        ("[groups.squad]\nshare = 0.4", "line 11, groups.squad.share: is not a key that is known"),
        ("[groups.squad]\nweight = 0", "groups.squad.weight"),
        ("[groups.starters]\nback = 2026-09-14", "must have one that trains from week 1"),
        ("[groups.squad]\n[groups.returning]\nback = 2025-09-14", "back must lie in 2026-08-31"),
        ("[groups.squad]\n[groups.returning]\nback = 2026-10-16", "the last Monday"),
        ("groups = 3", "must be a table"),
        ("[groups]\nsquad = 3", "must be a table"),
    ],
)
def test_a_table_of_groups_that_cannot_be_used_is_refused_in_one_line(tmp_path, tables, told):
    path = tmp_path / "bad.toml"
    text = f"{tables}\n{SHORT}" if tables.startswith("groups") else f"{SHORT}\n{tables}\n"
    path.write_text(text)

    result = run("groups", path)

    assert result.exit_code == 1, result.output
    assert told in result.stderr
    assert "bad.toml" in result.stderr
    assert result.stdout == ""


def test_rules_that_clash_are_exit_code_three_and_nothing_is_written(folder, tmp_path):
    path = tmp_path / "clash.toml"
    pin = '[rules.pin]\nchoices = [ { week = 1, quality = "sprint", band = "S5" } ]\n'
    path.write_text(SHORT + pin + TABLES)

    result = run("groups", path, "-o", tmp_path / "plans")

    assert result.exit_code == 3
    assert "Even alone there is none for starters, non-playing." in result.stderr
    assert not (tmp_path / "plans").exists()


def test_no_plan_in_time_is_exit_code_four(folder, monkeypatch):
    late = GroupsOutcome("out_of_time", (), (), 1.0)
    monkeypatch.setattr(cli.commands.groups, "solve_groups", lambda *_, **__: late)

    result = run("groups", folder / "short.toml")

    assert result.exit_code == 4
    assert "time ran out" in result.stderr


def test_a_folder_that_cannot_be_made_is_told(folder, planned, found_before, tmp_path):
    shutil.copy(folder / "short.toml", tmp_path / "file")

    result = run("groups", folder / "short.toml", "-o", tmp_path / "file" / "plans")

    assert result.exit_code == 1
    assert "Traceback" not in result.output
