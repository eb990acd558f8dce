from batch_cases import NO_SESSIONS, small_season

from constraints.load import load_rules
from optimiser.batch.clash_words import clash_line


def test_the_line_names_the_rules_and_weeks_that_clash():
    words = clash_line(small_season(), load_rules(NO_SESSIONS))

    assert "session_caps (week" in words
    assert words.endswith(" clash")


def test_a_rule_that_cannot_be_kept_alone_stands_alone():
    doses = [{"week": 2, "quality": "sprint", "dose": dose} for dose in ("none", "full")]
    pin = {"choices": doses}

    words = clash_line(small_season(), load_rules({"pin": pin}))

    assert words == "pin (week 2) cannot be kept"
