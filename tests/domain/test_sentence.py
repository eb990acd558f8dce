"""Sentences whose facts stand beside their words."""

import pytest

from optimiser.domain.sentence import Sentence, Span
from optimiser.domain.wording import weeks_listed


@pytest.mark.parametrize(
    ("weeks", "words"),
    [([3], "week 3"), ([5, 3, 4], "weeks 3-5"), ([1, 2, 3, 8, 11], "weeks 1-3, 8 and 11")],
)
def test_weeks_in_words(weeks, words):
    assert weeks_listed(weeks) == words


@pytest.mark.parametrize(
    ("form", "facts", "words"),
    [
        (
            "at most {limit:session} in {week} ({busy:match} in 7 days)",
            {"limit": 1, "busy": 3},
            "at most 1 session in week 8 (3 matches in 7 days)",
        ),
        (
            "{week:has} {have:{place} session}",
            {"have": 2, "place": "gym"},
            "week 8 has 2 gym sessions",
        ),
        (
            "{limit:leg quality} in {before}",
            {"limit": 2, "before": Span(0, 2)},
            "2 leg qualities in weeks 1-3",
        ),
        ("{of:.0f} min {more:+d} min", {"of": 12.4, "more": -10}, "12 min -10 min"),
        ("nothing to do", {}, "nothing to do"),
    ],
)
def test_numbers_bring_their_words_along(form, facts, words):
    assert str(Sentence(form, 7, facts=tuple(facts.items()))) == words


@pytest.mark.parametrize(
    ("form", "words"),
    [
        ("{quality:goes} up into {week}", "Sprint and power go up into weeks 2-3"),
        ("unpin {quality} in {week}", "unpin sprint and power in weeks 2-3"),
        ("in {week}, {quality:may} rest", "in weeks 2-3, sprint and power may rest"),
    ],
)
def test_verbs_agree_and_names_inside_a_sentence_are_small(form, words):
    assert Sentence(form).told((1, 2), ("Sprint", "Power")) == words


def test_facts_are_never_read_as_words():
    sentence = Sentence("{what} in {week}", 0, facts=(("what", "{week}: 100 %"),))

    assert str(sentence) == "{week}: 100 % in week 1"
