"""Our rules with the limits of the second model."""

from week_by_week import Limits

from constraints.blocks import Blocks
from constraints.budget import Budget, Ceiling
from constraints.exposure import Exposure
from constraints.foundation import Foundation
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.taper import Taper
from optimiser.rule import Rule


def rules_of(limits: Limits) -> list[Rule]:
    """Return our rules with these limits, and nothing else they would say."""
    no_volume = {"high": (), "medium": (), "high_of_full": (), "medium_of_full": (), "sessions": 0}
    ceiling = dict.fromkeys(("off_season", "pre_season", "in_season"), limits.ceiling)
    return [
        Blocks(shortest=limits.shortest, longest=limits.longest),
        Progression(up=limits.up, down=limits.down, volume_rise=200, allowance=1000, yields=False),
        Foundation(from_rung=limits.from_rung, weeks=limits.foundation_weeks, within=limits.within),
        Reentry(
            days_off=limits.days_off,
            rung=limits.reentry_rung,
            bottom=limits.reentry_rung,
            volume=(),
        ),
        Taper(**no_volume, keep_bands=limits.keep_bands, nothing_new=0, apart=0, yields=False),
        Exposure(gap_weeks={}, usual_gap=limits.gap, spared=7, yields=False),
        Budget(ceilings={"contacts": Ceiling(**ceiling)}),
    ]
