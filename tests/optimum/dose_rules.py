"""Random rules that speak of doses, minutes, load and sessions."""

from constraints.budget import Budget, Ceiling
from constraints.congestion import Congestion
from constraints.deload import Deload
from constraints.exposure import Exposure
from constraints.load_ramp import LoadRamp
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.session_caps import SessionCaps
from constraints.taper import Taper


def price(rng):
    return rng.choice((None, None, 1, 5, 40))


def dose_rules(rng):
    """Return rules that speak of doses, minutes, load and sessions, some of them priced."""
    rules = [
        Progression(volume_rise=rng.choice((0, 10, 30)), allowance=rng.choice((0, 10, 25)),
                    price=price(rng)),
        LoadRamp(percent=rng.choice((0, 20)), allowance=rng.choice((0, 60)), floor=50,
                 price=price(rng)),
        Reentry(days_off=7, rung=12, volume=(50, 80), price=price(rng)),
        Deload(of_full=70, percent=60, allowance=5, sessions=0, price=price(rng)),
        Taper(high=(70, 45), medium=(60,), high_of_full=(60, 40), allowance=5, sessions=0,
              price=price(rng)),
        Exposure(gap_weeks={"sprint": 1}, usual_gap=2, price=price(rng)),
        Congestion(sessions=(3, 2, 1, 0), hard=(2, 1, 0, 0), pieces=1, price=price(rng)),
        SessionCaps(field_minutes=25, gym_minutes=30, pieces=1, price=price(rng)),
        Budget(ceilings={"contacts": Ceiling(off_season=60, pre_season=80, in_season=70)},
               price=price(rng)),
    ]  # fmt: skip
    return [rule for rule in rules if rng.random() < 0.5]
