"""Settings under which every rule is tried; a new rule adds its own here.

They fit any season of ``random_season``: six weeks or more, qualities ``sprint`` and ``power``.
"""

import datetime as dt

from constraints.blocks import Blocks
from constraints.budget import Budget, Ceiling
from constraints.congestion import Congestion
from constraints.deload import Deload
from constraints.exposure import Exposure
from constraints.foundation import Foundation
from constraints.load_ramp import LoadRamp
from constraints.phase_load import PhaseLoad
from constraints.pin import Pin, Pinned
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.rest import Rest
from constraints.retesting import Retesting
from constraints.revisit import Revisit
from constraints.session_caps import PhaseCaps, SessionCaps
from constraints.spacing import Spacing
from constraints.taper import Taper
from optimiser.domain.weekday import Weekday
from optimiser.rule import Rule, Waiver

EVERYWHERE = Waiver(by=1)
WEEK_FIVE = Waiver(week=5, by=2)
SPRINT = Waiver(quality="sprint")


def _part(part: str, by: int = 1) -> Waiver:
    return Waiver(part=part, by=by)


SAMPLES: dict[str, tuple[Rule, ...]] = {
    "blocks": (
        Blocks(yields=False),
        Blocks(),
        Blocks(shortest=4, longest=4),
        Blocks(shortest=1, longest=2),
        Blocks(shortest=7, longest=8, waive=(_part("length", 2),)),
        Blocks(waive=(EVERYWHERE, _part("border"), WEEK_FIVE)),
        Blocks(shortest=1, begin=(3, 5), go_on=(4, 6), waive=(WEEK_FIVE,)),
    ),
    "progression": (
        Progression(yields=False),
        Progression(),
        Progression(up=2, down=1, volume_rise=0, allowance=0),
        Progression(volume_rise=13, allowance=7, waive=(WEEK_FIVE, SPRINT)),
        Progression(down=1, waive=(_part("up"), _part("volume", 20))),
    ),
    "deload": (
        Deload(yields=False),
        Deload(),
        Deload(where="last", percent=65, allowance=0, sessions=3),
        Deload(where="every", every=3, percent=33),
        Deload(where="every", every=4, sessions=1, waive=(WEEK_FIVE,)),
        Deload(allowance=0, waive=(_part("volume", 9), _part("sessions"))),
    ),
    "taper": (
        Taper(yields=False),
        Taper(),
        Taper(high=(80, 55, 35), medium=(70, 45), reference=3, allowance=0),
        Taper(high=(), medium=(), keep_bands=2, same_peak=0, apart=9),
        Taper(high=(50,), medium=(90, 60, 30), reference=1, sessions=100, keep_bands=0),
        Taper(waive=(WEEK_FIVE, SPRINT, _part("apart"), _part("sessions"), _part("volume", 6))),
        Taper(sessions=33, same_peak=1, apart=6, keep_bands=12, waive=(_part("bands"),)),
    ),
    "session_caps": (
        SessionCaps(),
        SessionCaps(field_minutes=15, gym_minutes=20, pieces=1),
        SessionCaps(off_season=PhaseCaps(field=0, gym=1), in_season=PhaseCaps(field=1, gym=0)),
        SessionCaps(field_minutes=9, pieces=2, waive=(WEEK_FIVE, _part("field"))),
        SessionCaps(gym_minutes=11, pieces=1, waive=(_part("gym_minutes", 7), _part("gym_pieces"))),
    ),
    "congestion": (
        Congestion(),
        Congestion(sessions=(3, 2, 1, 0), hard=(1, 1, 0, 0), pieces=1),
        Congestion(between=(0, 1, 2), free_days=3),
        Congestion(sessions=(9, 9, 9, 9), between=(0, 0, 1, 1, 2, 2, 3), free_days=3),
        Congestion(between=(0, 0, 0, 1, 1, 2, 2, 3, 3, 4), free_days=0, pieces=2),
        Congestion(sessions=(2, 1, 1, 0), waive=(WEEK_FIVE, _part("hard"))),
    ),
    "load_ramp": (
        LoadRamp(),
        LoadRamp(percent=0, allowance=0, floor=0),
        LoadRamp(percent=33, allowance=10, floor=50),
        LoadRamp(percent=7, allowance=3, floor=150, waive=(Waiver(week=5, by=90),)),
    ),
    "phase_load": (
        PhaseLoad(percent=70),
        PhaseLoad(percent=20),
        PhaseLoad(percent=101, waive=(EVERYWHERE,)),
        PhaseLoad(percent=43, waive=(WEEK_FIVE, Waiver(by=77))),
        PhaseLoad(),
    ),
    "exposure": (
        Exposure(yields=False),
        Exposure(),
        Exposure(gap_weeks={}, usual_gap=3, match_counts=()),
        Exposure(gap_weeks={"power": 2}, usual_gap=1, match_counts=("power",), spared=2),
        Exposure(spared=7, waive=(Waiver(week=5), Waiver(quality="sprint", week=4))),
        Exposure(gap_weeks={"sprint": 12}, spared=1, waive=(Waiver(quality="power"),)),
    ),
    "reentry": (
        Reentry(),
        Reentry(days_off=7, rung=1, volume=(30, 40)),
        Reentry(days_off=8, season_start=False, volume=()),
        Reentry(days_off=21, rung=3, volume=(50, 70, 80, 90, 95), season_start=True),
        Reentry(days_off=1, waive=(SPRINT, WEEK_FIVE, _part("volume", 11))),
    ),
    "foundation": (
        Foundation(),
        Foundation(from_rung=2, weeks=2, within=5),
        Foundation(from_rung=4, weeks=4, within=4),
        Foundation(from_rung=4, weeks=2, within=12),
        Foundation(from_rung=2, weeks=1, within=1, waive=(Waiver(week=5),)),
        Foundation(weeks=4, within=9, waive=(SPRINT, WEEK_FIVE)),
    ),
    "retesting": (
        Retesting(weeks=3, run=1),
        Retesting(weeks=4, run=2, after=1, before=2),
        Retesting(weeks=5, yields=False),
        Retesting(weeks=4, lighter="last", clear=0, run=1, before=2),
        Retesting(weeks=2, run=1, after=1, before=1, clear=1, waive=(WEEK_FIVE,)),
        Retesting(),
    ),
    "revisit": (
        Revisit(yields=False),
        Revisit(long_season=20),
        Revisit(rung=1, weeks=4),
        Revisit(rung=3, weeks=2, clear=2, long_season=6),
        Revisit(rung=1, weeks=1, clear=0, settle=0, long_season=6),
        Revisit(weeks=8, clear=40, settle=1, waive=(SPRINT,)),
    ),
    "budget": (
        Budget(),
        Budget(ceilings={"contacts": Ceiling(off_season=0, pre_season=20, in_season=55)}),
        Budget(
            ceilings={
                "hard_sets": Ceiling(off_season=30, pre_season=10, in_season=25),
                "near_top_speed_m": Ceiling(off_season=40, pre_season=90, in_season=60),
                "nobody_does_this": Ceiling(off_season=0, pre_season=0, in_season=0),
            },
            waive=(WEEK_FIVE, _part("hard_sets", 8)),
        ),
    ),
    "rest": (Rest(), Rest(waive=(EVERYWHERE,)), Rest(waive=(WEEK_FIVE,))),
    "pin": (
        Pin(choices=(Pinned(week=1, quality="sprint", band=1),)),
        Pin(choices=(Pinned(week=2, quality="power", dose="touch"),)),
        Pin(
            choices=(
                Pinned(week=2, quality="power", dose="none"),
                Pinned(week=3, quality="power", band="B2", dose="reduced"),
                Pinned(week=3, quality="power", band=2, dose="full"),
                Pinned(week=6, quality="sprint", dose="touch"),
            )
        ),
        Pin(
            choices=tuple(Pinned(week=week, quality="sprint", band=2) for week in range(1, 7)),
            waive=(WEEK_FIVE,),
        ),
    ),
    "spacing": (
        Spacing(),
        Spacing(hours_since=72, hours_until=24, hard_hours=72, doubles=0, rest_days=()),
        Spacing(recovery_days=0, primer_days=0, hard_hours=0, jump_days=1, speed_days=1, doubles=7),
        Spacing(recovery_days=3, primer_days=3, primer_minutes=9, latest=dt.time(10)),
        Spacing(
            rest_days=(Weekday.MONDAY, Weekday.WEDNESDAY, Weekday.SUNDAY),
            jump_days=4,
            waive=(WEEK_FIVE, SPRINT, _part("field"), _part("gym_primer", 6)),
        ),
    ),
}
