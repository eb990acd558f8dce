"""The catalogue: every coaching rule by name."""

from constraints.blocks import Blocks
from constraints.budget import Budget
from constraints.congestion import Congestion
from constraints.deload import Deload
from constraints.exposure import Exposure
from constraints.foundation import Foundation
from constraints.load_ramp import LoadRamp
from constraints.phase_load import PhaseLoad
from constraints.pin import Pin
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.rest import Rest
from constraints.retesting import Retesting
from constraints.revisit import Revisit
from constraints.session_caps import SessionCaps
from constraints.spacing import Spacing
from constraints.taper import Taper
from optimiser.rule import Rule

CATALOGUE: dict[str, type[Rule]] = {
    rule.name: rule
    for rule in (
        Blocks,
        Progression,
        Deload,
        Taper,
        SessionCaps,
        Congestion,
        Spacing,
        LoadRamp,
        PhaseLoad,
        Exposure,
        Reentry,
        Foundation,
        Revisit,
        Retesting,
        Budget,
        Rest,
        Pin,
    )
}

__all__ = ["CATALOGUE"]
