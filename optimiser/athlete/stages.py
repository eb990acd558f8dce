"""The way back to the squad: what each stage allows.

Medical staff decide each step; the program holds what they entered and never moves anybody on.
Stages and limits are engineering choices after consensus practice: Ardern et al. (2016), British
Journal of Sports Medicine 50(14): 853-864 (from memory), a continuum of return. Running that
rises gradually to full sprinting had full agreement in a Delphi consensus on hamstring injuries
(British Journal of Sports Medicine 2023); a sprint progression by criteria: Lorenz and Domzalski
(2020), International Journal of Sports Physical Therapy 15(2): 326-332. First sessions at 70 % of
the last 1RM: common practice, no source.
"""

from optimiser.domain.strict import Strict

#: Not cleared; and training with the squad.
OUT, FREE = 0, 6
#: Fewest days of a step, two where staff say so (engineering choice).
STEP_DAYS = 3


class Limits(Strict):
    """What an athlete may do.

    Parameters
    ----------
    field
        True if there is work on the field.
    rung
        Highest, counted from 1; None for no limit.
    speed
        Most, in per cent of top speed; below 100 nothing is done all out.
    jumps
        Most legs-off-the-ground work: 0 none, 1 on two legs, 2 any.
    fast
        True if there is work done for speed in the gym.
    strain
        True if there is what loads one muscle near its most at length.
    share
        Most of the squad's metres, and of a dose of the band's lifts and jumps, 0 to 1.
    load
        Share of the last 1RM that loads are taken from, 0 to 1.
    """

    field: bool = True
    rung: int | None = None
    speed: float = 100.0
    jumps: int = 2
    fast: bool = True
    strain: bool = True
    share: float = 1.0
    load: float = 1.0


class Stage(Limits):
    """What one stage allows; ``words`` are for people."""

    words: str


STAGES: dict[int, Stage] = {
    1: Stage(
        words="gym only, for what is not hurt",
        field=False, rung=2, speed=0.0, jumps=0, fast=False, strain=False, share=0.5,
        load=0.7,
    ),
    2: Stage(
        words="rung 2 at most, straight running to 70 % of top speed, no jumps",
        rung=2, speed=70.0, jumps=0, fast=False, strain=False, share=0.5, load=0.7,
    ),
    3: Stage(
        words="rung 2 at most, running to 80 %, jumps on two legs",
        rung=2, speed=80.0, jumps=1, share=0.5, load=0.8,
    ),
    4: Stage(
        words="running to 90 % with changes of direction, at most half the squad's metres and half "
        "a dose of jumps and lifts",
        rung=3, speed=90.0, share=0.5, load=0.9,
    ),
    5: Stage(
        words="full speed, at most 75 % of the squad's metres and of each dose, for a week",
        share=0.75,
    ),
    FREE: Stage(words="with the squad"),
}  # fmt: skip
