"""Sprint targets of athletes as they are tested: from a start that costs time."""

from pathlib import Path

import pytest

from cli.files.squad import read_squad
from optimiser.athlete.card_lines import LineMaker
from optimiser.athlete.cards import USUAL_KIT
from optimiser.athlete.library import default_library
from optimiser.athlete.run_target import curve
from optimiser.domain.quality import Dose
from optimiser.setup.qualities import default_qualities

SCENARIOS = Path(__file__).parents[2] / "scenarios"
LIBRARY = default_library()
(SPRINT,) = (quality for quality in default_qualities() if quality.key == "sprint")
SQUAD = read_squad(SCENARIOS / "hockey_squad.csv", LIBRARY.exercises, LIBRARY.tags)
TESTED = [athlete for athlete in SQUAD.athletes if len(athlete.splits) >= 4]


def last_leg(athlete):
    """The mean speed between the last two splits, in m/s."""
    before, last = sorted(athlete.splits)[-2:]
    return (last - before) / (athlete.splits[last] - athlete.splits[before])


@pytest.mark.parametrize("athlete", TESTED, ids=lambda athlete: athlete.name)
def test_top_speed_is_not_below_what_was_run(athlete):
    found = curve(athlete)

    assert found is not None
    assert found.vmax >= last_leg(athlete)
    assert found.rms < 0.01


@pytest.mark.parametrize("athlete", TESTED, ids=lambda athlete: athlete.name)
@pytest.mark.parametrize("rung", range(5))
def test_no_target_is_slower_than_the_split_nor_faster_than_top_speed(athlete, rung):
    maker = LineMaker(athlete, frozenset(), LIBRARY, USUAL_KIT)
    for item in LIBRARY.items(SPRINT, rung):
        ((line, _),) = maker.lines([item], Dose.FULL)
        value, unit = line.target.split() if line.target else ("", "")
        if unit == "s" and item.metres in athlete.splits:
            assert float(value) <= athlete.splits[item.metres] + 0.005
        if unit == "m/s":
            assert float(value.split("-")[-1]) <= maker.curve.vmax + 0.05
            if item.speed[1] >= 97:
                low = float(value.split("-")[0])
                assert low >= min(last_leg(athlete), maker.curve.vmax) - 0.05
