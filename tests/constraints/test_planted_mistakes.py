"""Mistakes planted in the rows of every rule: the comparison with the audit must find each."""

from collections.abc import Callable
from dataclasses import replace
from random import Random

import pytest
from made_seasons import differences, random_plan, random_season
from rule_samples import SAMPLES

from constraints import CATALOGUE
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
from constraints.revisit import Revisit
from constraints.session_caps import SessionCaps
from constraints.spacing import Spacing
from constraints.taper import Taper
from optimiser.board.model import Row
from optimiser.domain.quality import Dose
from optimiser.rule import Rule, Waiver

PLANS = 60


def _found(rule: Rule, name: str, *, long: bool = False, plans: int = PLANS) -> bool:
    """Tell whether any of some random plans shows that rows and audit differ."""
    for number in range(plans):
        rng = Random(f"{name} {number}")
        season = random_season(rng, long=long)
        if differences(rule, random_plan(rng, season), season):
            return True
    return False


def _wrong(rule: Rule, **read: object) -> Rule:
    """Return a rule whose rows misread some parameters and whose audit does not."""
    kind = type(rule)

    class Wrong(kind):
        def shape(self, outline):
            kind.shape(self.model_copy(update=read), outline)

        def post(self, board):
            kind.post(self.model_copy(update=read), board)

    return Wrong(**dict(rule))


def _spoilt(rule: Rule, spoil: Callable[[list[Row]], list[Row]]) -> Rule:
    """Return a rule whose rows are spoilt after they are posted."""
    kind = type(rule)

    class Spoilt(kind):
        def post(self, board):
            first = len(board.model.rows)
            kind.post(self, board)
            board.model.rows[first:] = spoil(board.model.rows[first:])

    return Spoilt(**dict(rule))


def _one_unit_off(rows: list[Row]) -> list[Row]:
    return [
        row
        if row.tag is None
        else replace(
            row,
            high=None if row.high is None else row.high + row.unit,
            low=None if row.low is None else row.low - row.unit,
        )
        for row in rows
    ]


def _every_third_lost(rows: list[Row]) -> list[Row]:
    return [row for number, row in enumerate(rows) if row.tag is None or number % 3]


def _condition_lost(rows: list[Row]) -> list[Row]:
    return [replace(row, when=None) for row in rows]


class NoBorders(Blocks):
    def _forbid_border(self, outline, arc):
        pass


class FallsFree(Progression):
    def _post_step(self, board, index, before, after, way):
        if way == "up":
            super()._post_step(board, index, before, after, way)


class WeekLate(Progression):
    def _post_volume(self, board, week, lost):
        if week > 4:
            super()._post_volume(board, week, lost)


class TaperAgainstTaper(Taper):
    def _before(self, week, usual):
        return super()._before(week, {*usual, *range(week)})


class PeaksMerge(Taper):
    def _post_apart(self, board):
        pass


class ForgetsFloor(LoadRamp):
    def _post_week(self, board, week, past):
        LoadRamp._post_week(self.model_copy(update={"floor": 0}), board, week, past)


class ThreeWeekMean(LoadRamp):
    def _post_week(self, board, week, past):
        super()._post_week(board, week, past[-3:])


class ForgetsPractice(PhaseLoad):
    def post(self, board):
        weeks = [week.model_copy(update={"practice_load": 0}) for week in board.season.weeks]
        season, board.season = board.season, board.season.model_copy(update={"weeks": weeks})
        super().post(board)
        board.season = season


class MatchForAll(Exposure):
    def _played(self, season, key, window):
        return any(season.weeks[week].fixtures for week in window)


class FullDoseOnly(Budget):
    def _used(self, board, index, week, table):
        only = [
            [amount if dose == Dose.FULL else 0 for dose, amount in enumerate(row)] for row in table
        ]
        return super()._used(board, index, week, only)


class NeverTooMuch(Pin):
    def _post_dose(self, board, choice, week, index):
        if choice.dose == "full":
            super()._post_dose(board, choice, week, index)


CONTACTS = Budget(ceilings={"contacts": Ceiling(off_season=30, pre_season=30, in_season=30)})
TIGHT = {"contacts": Ceiling(off_season=30, pre_season=31, in_season=30)}
PINS = tuple(Pinned(week=week, quality="power", dose="touch") for week in (2, 4))

MISTAKES: dict[str, Rule] = {
    "blocks: shortest read as one more": _wrong(Blocks(), shortest=4),
    "blocks: borders forgotten": NoBorders(),
    "progression: one rung more": _wrong(Progression(), up=2),
    "progression: falls forgotten": FallsFree(down=1),
    "progression: starts a week late": WeekLate(volume_rise=10, allowance=5),
    "deload: last week for first": _wrong(Deload(), where="last"),
    "deload: every week counted wrongly": _wrong(Deload(where="every"), every=3),
    "deload: minutes one per cent off": _wrong(Deload(), percent=Deload().percent + 1),
    "taper: medium fixtures forgotten": _wrong(Taper(), medium=()),
    "taper: measured against the taper itself": TaperAgainstTaper(),
    "taper: bands kept a week less": _wrong(Taper(keep_bands=4), keep_bands=3),
    "taper: peaks too near forgotten": PeaksMerge(apart=9),
    "session_caps: one piece more": _wrong(SessionCaps(pieces=1), pieces=2),
    "session_caps: field and gym swapped": _wrong(
        SessionCaps(field_minutes=20, gym_minutes=30), field_minutes=30, gym_minutes=20
    ),
    "congestion: free days forgotten": _wrong(Congestion(free_days=2), free_days=9),
    "congestion: days between forgotten": _wrong(
        Congestion(sessions=(9, 9, 9, 9), free_days=3), between=(9,)
    ),
    "congestion: hard work counted in smaller pieces": _wrong(Congestion(pieces=1), pieces=2),
    "load_ramp: floor forgotten": ForgetsFloor(percent=0, allowance=0, floor=200),
    "load_ramp: mean of three weeks": ThreeWeekMean(percent=10, allowance=10, floor=0),
    "phase_load: one percent more": _wrong(PhaseLoad(percent=90), percent=91),
    "phase_load: practice forgotten": ForgetsPractice(percent=90),
    "exposure: a match counts for all": MatchForAll(gap_weeks={}, usual_gap=1),
    "exposure: crowded weeks counted": _wrong(Exposure(spared=2), spared=7),
    "reentry: first week of the season forgotten": _wrong(Reentry(), season_start=False),
    "reentry: one week of the climb forgotten": _wrong(
        Reentry(volume=(50, 60, 70)), volume=(50, 60)
    ),
    "reentry: one rung more": _wrong(Reentry(), rung=3),
    "foundation: one rung later": _wrong(Foundation(), from_rung=4),
    "foundation: looks back a week too far": _wrong(Foundation(weeks=2, within=3), within=4),
    "budget: lower doses forgotten": FullDoseOnly(ceilings=CONTACTS.ceilings),
    "budget: ceiling of one phase one off": _wrong(CONTACTS, ceilings=TIGHT),
    "spacing: the day after a match forgotten": _wrong(Spacing(doubles=7), recovery_days=0),
    "spacing: one day with two sessions more": _wrong(Spacing(doubles=0), doubles=1),
    "spacing: hours after a match forgotten": _wrong(Spacing(recovery_days=0), hours_since=0),
    "rest: one session more": _wrong(Rest(), waive=(Waiver(by=1),)),
    "pin: a larger dose passes": NeverTooMuch(choices=PINS),
    "pin: weeks counted from 0": _wrong(
        Pin(choices=PINS), choices=tuple(c.model_copy(update={"week": c.week + 1}) for c in PINS)
    ),
}

LONG_MISTAKES: dict[str, Rule] = {
    "revisit: one week less": _wrong(Revisit(weeks=3), weeks=2),
    "revisit: one rung more": _wrong(Revisit(rung=1), rung=2),
    "revisit: window ends late": _wrong(Revisit(weeks=2, clear=25), clear=10),
}


#: Rules that narrow what may be built and post no rows that could be spoilt.
SHAPED = {"blocks", "revisit"}


def test_rules_without_rows_have_mistakes_of_their_own():
    told = {name.partition(":")[0] for name in (*MISTAKES, *LONG_MISTAKES)}

    assert told >= SHAPED


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_in_a_rule_is_found(name):
    assert _found(MISTAKES[name], name)


@pytest.mark.parametrize("name", LONG_MISTAKES)
def test_a_mistake_about_long_seasons_is_found(name):
    assert _found(LONG_MISTAKES[name], name, long=True)


@pytest.mark.parametrize("name", sorted(set(CATALOGUE) - SHAPED))
@pytest.mark.parametrize("spoil", [_one_unit_off, _every_third_lost])
def test_spoilt_rows_of_any_rule_are_found(name, spoil):
    assert any(_found(_spoilt(rule, spoil), name) for rule in SAMPLES[name])


def test_rows_that_forget_which_block_they_speak_of_are_found():
    assert _found(_spoilt(Deload(), _condition_lost), "deload")


def test_an_audit_that_sees_nothing_is_found():
    class Blind(SessionCaps):
        def audit(self, plan, season):
            return []

    assert _found(Blind(pieces=1), "session_caps")


def test_rules_without_a_mistake_pass():
    rules = [_wrong(Deload()), _spoilt(Taper(), list)]

    assert not any(_found(rule, "none", plans=5) for rule in rules)
