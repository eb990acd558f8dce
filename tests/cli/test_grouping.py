import pytest

from cli.render.grouping import Said, grouped, week_words
from cli.render.tidy import tidy


def said(text, week, quality=None, rule="rule", safety=False):
    return Said(rule, week, quality, text, safety)


def texts(*sentences, most=7):
    return [line.text for line in grouped(sentences, most)]


def test_a_chain_of_weeks_is_one_line():
    chain = [said(f"At most 2 sessions in week {w + 1}", w) for w in (0, 1, 2, 3, 6)]

    lines = grouped(chain)

    assert [line.text for line in lines] == ["At most 2 sessions in weeks 1-4 and 7"]
    assert lines[0].count == 5


def test_qualities_with_the_same_weeks_are_one_line_and_the_verb_follows():
    here = [
        said(f"{name} is trained in week {w + 1}", w, name)
        for name in ("Sprint", "Power", "Plyometrics")
        for w in (4, 5)
    ]

    assert texts(*here) == ["Sprint, power and plyometrics are trained in weeks 5-6"]


def test_qualities_with_other_weeks_have_lines_of_their_own():
    here = [
        said("Sprint is trained in week 5", 4, "Sprint"),
        said("Power is trained in week 6", 5, "Power"),
    ]

    assert texts(*here) == ["Sprint is trained in week 5", "Power is trained in week 6"]


def test_names_inside_a_sentence_stay_lower_case():
    here = [said(f"unpin {n.lower()} in week 2", 1, n) for n in ("Sprint", "Power")]

    assert texts(*here) == ["unpin sprint and power in week 2"]


def test_sentences_with_other_numbers_stay_apart():
    here = [said("Week 3 has at most 90 min", 2), said("Week 4 has at most 126 min", 3)]

    assert len(texts(*here)) == 2


def test_windows_of_weeks_are_named_once_and_how_far_they_go():
    here = [said(f"Power is trained in weeks {w}-{w + 1}", w, "Power") for w in (3, 4, 5)]

    assert texts(*here) == ["Power is trained in weeks 3-4; likewise up to week 6"]


def test_more_than_seven_lines_are_put_together_by_rule():
    here = [said(f"Limit {w} here in week {w + 1}", w, rule="ramp") for w in range(8)]
    here.append(said("Pinned in week 3", 2, rule="pin"))

    lines = grouped(here)

    assert [line.rule for line in lines] == ["ramp", "pin"]
    assert lines[0].text == "Limit 0 here in week 1; and 7 more of this rule"


def test_never_more_than_seven_lines_and_none_is_lost_in_the_count():
    here = [said("Says in week 1", 0, rule=f"rule {number}") for number in range(12)]

    lines = grouped(here)

    assert len(lines) == 7
    assert sum(line.count for line in lines) == 12
    assert lines[-1].text == "6 more; --all shows them"
    assert len(grouped(here, None)) == 12


@pytest.mark.parametrize(
    ("weeks", "words"),
    [([3], "week 3"), ([5, 3, 4], "weeks 3-5"), ([1, 2, 3, 8, 11], "weeks 1-3, 8 and 11")],
)
def test_weeks_in_words(weeks, words):
    assert week_words(weeks) == words


@pytest.mark.parametrize(
    ("text", "smooth"),
    [
        (
            "at most 1 session(s) in week 8 (3 match(es) in 7 days)",
            "at most 1 session in week 8 (3 matches in 7 days)",
        ),
        ("at most 2 gym session(s) in week 1", "at most 2 gym sessions in week 1"),
        ("1 gym session(s)", "1 gym session"),
        ("3 instead of 1 rung(s) into week 4", "3 instead of 1 rung into week 4"),
        ("at most 240 near_top_speed_m in week 2", "at most 240 m near top speed in week 2"),
        ("nothing to do", "nothing to do"),
    ],
)
def test_plurals_are_settled(text, smooth):
    assert tidy(text) == smooth
