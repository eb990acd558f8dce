"""Any calendar gives a plan: the rules as they come never clash with fixtures and breaks alone.

``python -m tests.benchmarks.any_calendar`` tries thousands.
"""

import pytest

from tests.tough.any_calendar import any_calendar
from tests.tough.by_command import end_by_command
from tests.tough.keeps_its_rules import PLANNED, end_of

#: Calendars of at most this many weeks, for a quick look.
SHORT = 53
SEEDS = [seed for seed in range(20) if any_calendar(seed).weeks <= SHORT]


@pytest.mark.parametrize("seed", SEEDS)
def test_a_calendar_by_chance_has_a_plan_that_keeps_every_rule(seed):
    assert end_of(any_calendar(seed)) == PLANNED


def test_a_calendar_by_chance_has_a_plan_by_the_commands(tmp_path):
    assert end_by_command(any_calendar(165), tmp_path) == PLANNED
