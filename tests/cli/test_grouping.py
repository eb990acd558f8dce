"""Like sentences become one line."""

from cli.render.grouping import Said, grouped
from optimiser.domain.sentence import Sentence, Span

TRAINED = "{quality:is} trained in {week}"


def said(form, week, quality="", rule="rule", safety=False, **facts):
    return Said(rule, Sentence(form, week, quality, tuple(facts.items())), safety)


def texts(*sentences, most=7):
    return [line.text for line in grouped(sentences, most)]


def test_a_chain_of_weeks_is_one_line():
    chain = [said("at most {most:session} in {week}", w, most=2) for w in (0, 1, 2, 3, 6)]

    lines = grouped(chain)

    assert [line.text for line in lines] == ["at most 2 sessions in weeks 1-4 and 7"]
    assert lines[0].count == 5


def test_qualities_with_the_same_weeks_are_one_line_and_the_verb_follows():
    names = ("Sprint", "Power", "Plyometrics")
    here = [said(TRAINED, week, name) for name in names for week in (4, 5)]

    assert texts(*here) == ["Sprint, power and plyometrics are trained in weeks 5-6"]


def test_qualities_with_other_weeks_have_lines_of_their_own():
    here = [said(TRAINED, 4, "Sprint"), said(TRAINED, 5, "Power")]

    assert texts(*here) == ["Sprint is trained in week 5", "Power is trained in week 6"]


def test_sentences_with_other_numbers_stay_apart():
    form = "{week:has} at most {most} min"

    assert len(texts(said(form, 2, most=90), said(form, 3, most=126))) == 2


def test_what_keeps_people_safe_is_not_put_together_with_what_does_not():
    assert len(texts(said(TRAINED, 1, "Sprint", safety=True), said(TRAINED, 2, "Sprint"))) == 2


def test_windows_of_weeks_are_named_once_and_how_far_they_go():
    form = "{quality:is} trained in {window}"
    here = [said(form, w, "Power", window=Span(w - 1, w)) for w in (3, 4, 5)]

    assert texts(*here) == ["Power is trained in weeks 3-4; likewise up to week 6"]


def test_more_than_seven_lines_are_put_together_by_rule():
    here = [said("limit {most} here in {week}", w, rule="ramp", most=w) for w in range(8)]
    here.append(said("pinned in {week}", 2, rule="pin"))

    lines = grouped(here)

    assert [line.rule for line in lines] == ["ramp", "pin"]
    assert lines[0].text == "limit 0 here in week 1; and 7 more of this rule"


def test_never_more_than_seven_lines_and_none_is_lost_in_the_count():
    here = [said("says in {week}", 0, rule=f"rule {number}") for number in range(12)]

    lines = grouped(here)

    assert len(lines) == 7
    assert sum(line.count for line in lines) == 12
    assert lines[-1].text == "6 more; --all shows them"
    assert len(grouped(here, None)) == 12
