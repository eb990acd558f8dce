import pytest

from optimiser.domain.breach import Breach
from optimiser.domain.document import PlanDocument, to_plan
from optimiser.domain.quality import Dose
from optimiser.domain.setup_error import SetupError
from optimiser.review.audit import audit_plan, structure
from optimiser.review.describe import describe
from optimiser.review.score import match_score, readiness, training_load


@pytest.fixture
def plan(impossible, plain_plan):
    return plain_plan(impossible.season, rung=1)


@pytest.fixture
def document(impossible, plan, usual_rules):
    return describe(
        impossible.season, plan, usual_rules, None, digest=impossible.digest, seed=7, versions={}
    )


def changed(document, week, **parts):
    """Return the document with some keys of one week (from 1) put in."""
    data = document.model_dump(mode="json")
    data["weeks"][week - 1] |= parts
    return PlanDocument.model_validate(data)


def test_a_document_reads_back_as_the_same_choices(impossible, plan, document):
    again = to_plan(document, impossible.season)

    assert again == plan


def test_choices_read_back_are_described_the_same(impossible, document, usual_rules):
    plan = to_plan(PlanDocument.model_validate_json(document.model_dump_json()), impossible.season)
    again = describe(
        impossible.season, plan, usual_rules, None, digest=impossible.digest, seed=7, versions={}
    )

    assert again == document


def test_closed_weeks_have_no_band_and_no_block(document):
    closed = [week for week in document.weeks if week.week in (11, 12)]

    assert [(week.block, week.block_week) for week in closed] == [(None, None)] * 2
    assert {(part.band, part.rung, part.dose) for w in closed for part in w.qualities.values()} == {
        (None, None, "none")
    }


def test_weeks_and_rungs_are_counted_from_one(document):
    first = document.weeks[0]

    assert (first.week, first.block, first.block_week) == (1, 1, 1)
    assert (first.qualities["sprint"].rung, first.qualities["sprint"].band) == (2, "S2")


def test_numbers_are_those_worked_out_from_the_choices(impossible, plan, document):
    season = impossible.season
    ready, by_quality = readiness(season, plan)

    assert [w.readiness for w in document.weeks] == pytest.approx(ready, abs=0.006)
    assert [w.qualities["power"].readiness for w in document.weeks] == pytest.approx(
        by_quality[season.keys.index("power")], abs=0.006
    )
    assert document.match.at_high == pytest.approx(match_score(season, plan).at_high, abs=0.006)
    assert document.weeks[4].load.training == training_load(season, plan, 4)
    assert all(
        w.load.total == w.load.training + w.load.practice + w.load.matches for w in document.weeks
    )


def test_a_season_without_medium_matches_has_no_score_there(document):
    assert document.match.at_medium is None


def test_taper_and_first_weeks_of_blocks_are_marked(document):
    assert [week.week for week in document.weeks if week.taper] == [13]
    assert [week.week for week in document.weeks if week.deload] == [1, 5, 9, 13]


def test_without_the_rules_nothing_is_marked(impossible, plan):
    bare = describe(impossible.season, plan, [], None, digest="", seed=0, versions={})

    assert not any(week.taper or week.deload for week in bare.weeks)


def test_every_breach_of_a_rule_is_listed_with_its_week_from_one(
    impossible, plan, document, usual_rules
):
    found = audit_plan(impossible.season, plan, usual_rules)

    assert [b.words for b in document.breaches] == [b.words for b in found]
    assert [b.week for b in document.breaches] == [b.week + 1 for b in found]


def test_a_band_that_is_not_on_the_ladder_is_refused(impossible, document):
    wrong = changed(
        document,
        3,
        qualities={
            **document.model_dump(mode="json")["weeks"][2]["qualities"],
            "sprint": {"band": "S9"},
        },
    )

    with pytest.raises(SetupError, match=r"weeks\[3\].qualities.sprint: band must be one of S1"):
        to_plan(wrong, impossible.season)


def test_a_band_and_a_rung_that_differ_are_refused(impossible, document):
    qualities = document.model_dump(mode="json")["weeks"][2]["qualities"]
    qualities["power"] |= {"band": "W4", "rung": 2}

    with pytest.raises(SetupError, match="band W4 and rung 2"):
        to_plan(changed(document, 3, qualities=qualities), impossible.season)


def test_a_document_of_another_length_is_refused(minimal, document):
    with pytest.raises(SetupError, match="must be the 14 weeks"):
        to_plan(document, minimal.season)


def parts(season, plan):
    return [(breach.part, breach.week, breach.quality) for breach in structure(season, plan)]


def with_dose(plan, quality, week, dose):
    doses = [list(row) for row in plan.doses]
    doses[quality][week] = dose
    return plan.model_copy(update={"doses": tuple(map(tuple, doses))})


def test_a_plan_that_hangs_together_has_no_structural_breach(impossible, plan):
    assert structure(impossible.season, plan) == []


def test_work_in_a_closed_week_is_found(impossible, plan):
    wrong = with_dose(plan, 0, 10, Dose.FULL)

    assert parts(impossible.season, wrong) == [("closed", 10, None)]


def test_work_without_a_session_is_found(impossible, plan):
    wrong = plan.model_copy(update={"gym": (0, *plan.gym[1:])})

    assert parts(impossible.season, wrong) == [("sessions", 0, None)]


def test_a_session_without_work_is_found(impossible, plan):
    idle = plan
    for index, quality in enumerate(impossible.season.qualities):
        if quality.place == "field":
            idle = with_dose(idle, index, 2, Dose.NONE)

    assert parts(impossible.season, idle) == [("sessions", 2, None)]


def test_a_rung_that_moves_inside_a_block_is_found(impossible, plan):
    rows = [list(row) for row in plan.rungs]
    rows[3][6] = 2
    wrong = plan.model_copy(update={"rungs": tuple(map(tuple, rows))})

    assert parts(impossible.season, wrong) == [("block", 6, "power"), ("block", 7, "power")]


def test_an_open_week_in_no_block_is_found(impossible, plan):
    wrong = plan.model_copy(update={"starts": plan.starts[1:]})

    assert parts(impossible.season, wrong) == [("block", week, None) for week in range(4)]


def test_a_plan_of_another_shape_is_refused(minimal, plan, usual_rules):
    with pytest.raises(ValueError, match="in 14 weeks"):
        audit_plan(minimal.season, plan, usual_rules)


def test_a_plan_without_a_search_is_never_called_proven(document):
    assert (document.status, document.season) == ("stopped", None)


def test_breaches_of_the_whole_season_come_first(minimal, plain_plan, monkeypatch, usual_rules):
    late = Breach(rule="taper", week=3, excess=1)
    whole = Breach(rule="taper", excess=1)
    rule = next(rule for rule in usual_rules if rule.name == "taper")
    monkeypatch.setattr(type(rule), "audit", lambda self, plan, season: [late, whole])

    found = audit_plan(minimal.season, plain_plan(minimal.season), [rule])

    assert found == [whole, late]
