"""Turn a week's choices into an athlete's card."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from optimiser.athlete.allowed import allowed_rung
from optimiser.athlete.card import Card, ChosenBand, Kit, Section, SessionCard, SessionDay, WeekInfo
from optimiser.athlete.card_lines import LineMaker, Made
from optimiser.athlete.care import YOUNG
from optimiser.athlete.choosing import Chooser
from optimiser.athlete.exercise import Item
from optimiser.athlete.held_items import barred_by, held_items
from optimiser.athlete.hold import NO_HOLD, Hold
from optimiser.athlete.library import Library, default_library
from optimiser.athlete.line_time import line_seconds, rising_once
from optimiser.athlete.load_in_block import progressed
from optimiser.athlete.measured import OLD_WEEKS
from optimiser.athlete.own_sessions import own_sessions
from optimiser.athlete.sessions import Worked, session_cards
from optimiser.athlete.squad import Athlete
from optimiser.athlete.stages import OUT
from optimiser.athlete.top_up import top_ups
from optimiser.athlete.youth import SetWork, gentler
from optimiser.days.retests import retest_words
from optimiser.domain.quality import Dose

USUAL_KIT = Kit()


def card(
    athlete: Athlete,
    choices: Iterable[ChosenBand],
    week: WeekInfo,
    library: Library | None = None,
    kit: Kit = USUAL_KIT,
    hold: Hold = NO_HOLD,
) -> Card:
    """Return one athlete's card for one week.

    Parameters
    ----------
    choices
        What the plan asks for, in the order to print; a dose of none is left out.
    library
        Exercises and work of each band; the default one if left out.
    kit
        What there is to load with.
    hold
        What the way back and time off allow the athlete this week.
    """
    empty = Card(
        athlete=athlete.name, group=athlete.group, body_mass_kg=athlete.body_mass_kg, week=week
    )
    if (athlete.waiting and not hold.entered) or hold.stage == OUT:
        return empty.model_copy(
            update={"week": _bare(week), "notes": (_not_cleared(athlete, hold),)}
        )
    if hold.away or athlete.away(week.monday, week.sunday):
        return empty.model_copy(update={"notes": ("not available this week",)})
    held = _restarted(hold, week)
    work = _Work(athlete, tuple(choices), week, library or default_library(), kit, held)
    main = work.on(None)
    extra = top_ups(
        athlete, week.matches, week.monday, held, main.maker.banned, _gone(athlete, week)
    )
    notes = (*held.notes, *(each.words for each in extra), *_notes(athlete, week, held))
    days = own_sessions(_own_standing(week, held), lambda day: work.on(day).sections)
    sessions = session_cards(days, work.on)
    told = {
        "week": week.model_copy(update={"sessions": _as_long(days, sessions)}),
        "sections": main.sections,
        "sessions": sessions,
        "top_ups": tuple(extra),
        "notes": notes,
    }
    return empty.model_copy(update=told)


def _own_standing(week: WeekInfo, held: Hold) -> tuple[SessionDay, ...]:
    """Return the sessions with standing work as the athlete's week of its programme has it."""
    return tuple(
        day.model_copy(update={"standing": tuple(part.at(programme) for part in day.standing)})
        for day in week.sessions
        for programme in [held.on(day.date).programme]
    )


def _as_long(days: Sequence[SessionDay], sessions: Sequence[SessionCard]) -> tuple[SessionDay, ...]:
    """Return the days of sessions with the minutes of what is in them."""
    pairs = zip(days, sessions, strict=True)
    return tuple(
        day if day.away else day.model_copy(update={"minutes": made.minutes}) for day, made in pairs
    )


class _Work:
    """An athlete's work of one week, worked out once for each hold that its days have."""

    def __init__(
        self,
        athlete: Athlete,
        choices: Sequence[ChosenBand],
        week: WeekInfo,
        library: Library,
        kit: Kit,
        held: Hold,
    ) -> None:
        self.athlete, self.week, self.library, self.kit = athlete, week, library, kit
        self.choices = [choice for choice in choices if choice.dose is not Dose.NONE]
        self.held = held
        self._made: list[Worked] = []

    def on(self, day: dt.date | None) -> Worked:
        """Return what is done on a day; None is the week as a whole."""
        hold = self.held if day is None else self.held.on(day)
        found = next((each for each in self._made if each.hold == hold), None)
        if found is None:
            found = self._worked(hold)
            self._made.append(found)
        return found

    def _worked(self, hold: Hold) -> Worked:
        banned = self.athlete.banned(self.week.monday, self.week.sunday) | hold.tags
        maker = LineMaker(self.athlete, banned, self.library, self.kit)
        maker.chooser = maker.choosing(barred=barred_by(hold, self.library))
        made = (section(choice, maker, hold, self.week.block_week) for choice in self.choices)
        return Worked(hold, maker, tuple(made))


def _gone(athlete: Athlete, week: WeekInfo) -> list[dt.date]:
    """Return the days of a week on which the athlete is not there."""
    away = {session.date for session in week.sessions if session.away}
    days = (week.monday + dt.timedelta(days=step) for step in range(7))
    return [day for day in days if day in away or athlete.away(day, day)]


def _restarted(hold: Hold, week: WeekInfo) -> Hold:
    """Return a hold that knows of time off that squad or group had too."""
    if week.back is None:
        return hold
    return hold.restarted(week.restart, week.back, volume=False)


def _bare(week: WeekInfo) -> WeekInfo:
    """Return the week without its sessions: who is not cleared has none."""
    return week.model_copy(update={"field": 0, "gym": 0, "sessions": ()})


def _not_cleared(athlete: Athlete, hold: Hold) -> str:
    first = f"since {athlete.unavailable_from}" if athlete.unavailable_from else ""
    since = " ".join(filter(None, ["not cleared", hold.why or first]))
    return f"{since}: no work of this plan; ask the medical team, who alone decide"


def section(
    choice: ChosenBand, maker: LineMaker, hold: Hold = NO_HOLD, block_week: int | None = None
) -> Section:
    """Return the work for one quality, on the highest band the athlete may do.

    Parameters
    ----------
    block_week
        From 1: loads rise inside a block.
    """
    quality, planned = choice.quality, choice.quality.bands[choice.rung]
    rung, reasons = allowed_rung(maker.athlete, quality, choice.rung, maker.library, hold)
    band = planned if rung is None else quality.bands[rung]
    written = () if rung is None else maker.library.items(quality, rung)
    listed, left_out = _chosen(written, maker, maker.chooser)
    chosen = progressed(listed, maker.library, block_week)
    items = _items(chosen, choice, maker, hold, block_week)
    made = maker.lines(items, choice.dose)
    why = "; ".join(filter(None, reasons))
    notes = [f"in place of {planned.code}: {why}"] if why else []
    if rung is None:
        notes = [f"no band of this ladder fits, leave it out: {why}"]
    elif written and not made:
        notes += [f"nothing of {band.code} is left to do, leave it out"]
    elif not written:
        notes += _unread(maker, hold)
    notes += [*left_out, *(remark for _, remarks in made for remark in remarks)]
    return Section(
        quality=quality.name,
        place=quality.place,
        planned=planned.code,
        code=band.code,
        label=_label(band.label, (written, listed, chosen, items), block_week),
        dose=choice.dose.word,
        work="" if written or rung is None else band.work or band.label,
        share=_share(choice, made, maker, block_week),
        lines=tuple(line for line, _ in made),
        notes=tuple(dict.fromkeys(notes)),
    )


def _chosen(
    items: Sequence[Item], maker: LineMaker, chooser: Chooser
) -> tuple[list[Item], list[str]]:
    """Choose exercises; what a band itself asks for has been held against its limits already."""
    asked = {item.exercise for item in items}
    return maker.choose(items, replace(chooser, barred=frozenset(chooser.barred) - asked))


def _share(
    choice: ChosenBand, made: Sequence[Made], maker: LineMaker, block_week: int | None
) -> float:
    """Return the share of the plan's time that what is left takes.

    A lighter week of the block has the plan's minutes all the same.
    """
    written = maker.library.items(choice.quality, choice.rung)
    items = progressed(written, maker.library, block_week)
    planned, own = (_seconds(lines, maker) for lines in (maker.lines(items, choice.dose), made))
    return min(1.0, own / planned) if planned else 1.0


def _seconds(made: Sequence[Made], maker: LineMaker) -> float:
    lines = rising_once(line for line, _ in made)
    return sum(line_seconds(line, maker.library.exercises) for line in lines)


def _label(label: str, stages: Sequence[Sequence[Item]], block_week: int | None) -> str:
    """Return what a band is called; where it is lighter its name alone would say too much.

    Parameters
    ----------
    stages
        Items as the band has them, as they are chosen, as the week of the block wants them, and as
        they are done.
    """
    written, band, week, now = (
        max((item.percent for item in items if item.percent), default=(0.0, 0.0))[1]
        for items in stages
    )
    if not now or now == band:
        return "without its loads" if written and stages[-1] and not now else label
    return f"{label}; week {block_week}: {now:g} %" if now == week else f"brought down to {now:g} %"


def _items(
    written: Sequence[Item],
    choice: ChosenBand,
    maker: LineMaker,
    hold: Hold,
    block_week: int | None,
) -> Sequence[Item]:
    """Return the work of a band for this athlete: held, and under 18 below an adult's."""
    if not written:
        return ()
    planned = _as_if_alone(maker.library.items(choice.quality, choice.rung), maker)
    items = held_items(written, planned, hold, maker.library, choice.dose)
    if not maker.athlete.young:
        return items
    adult = _adult(choice, maker, hold, block_week)
    young, level = SetWork(items, maker.kilograms), maker.athlete.training_level
    return gentler(young, adult, level, maker.library, choice.dose, held=not hold.free)


def _as_if_alone(items: Sequence[Item], maker: LineMaker) -> Sequence[Item]:
    """Return items with exercises chosen as in a week that holds nothing else."""
    barred = frozenset(maker.chooser.barred)
    return _chosen(items, maker, maker.choosing(barred=barred))[0]


def _adult(choice: ChosenBand, maker: LineMaker, hold: Hold, block_week: int | None) -> SetWork:
    """Return the work of an adult with the same plan, the same limits and the same week."""
    adult = {"age": None, "under_18": None, "training_level": "advanced"}
    grown = LineMaker(
        maker.athlete.model_copy(update=adult), maker.banned, maker.library, maker.kit
    )
    grown.chooser = grown.choosing(barred=frozenset(maker.chooser.barred))
    rung, _ = allowed_rung(grown.athlete, choice.quality, choice.rung, maker.library, hold)
    own, planned = (
        _as_if_alone(maker.library.items(choice.quality, at), grown)
        for at in (choice.rung if rung is None else rung, choice.rung)
    )
    now = progressed(own, maker.library, block_week)
    items = () if rung is None else held_items(now, planned, hold, maker.library, choice.dose)
    return SetWork(items, grown.kilograms)


def _unread(maker: LineMaker, hold: Hold) -> Iterable[str]:
    """Say what the limits could not look into, where a band is words only."""
    share = min(hold.share, hold.full_share)
    if share < 1 or hold.load < 1:
        yield f"do at most {100 * share:.0f} % of this, loads at {100 * hold.load:.0f} %"
    if maker.athlete.young:
        yield "under 18: check that this stays below 90 % of the 1RM"
    if maker.banned:
        yield f"check against what is restricted: {', '.join(sorted(maker.banned))}"


def _old_tests(athlete: Athlete, week: WeekInfo) -> Iterable[str]:
    """Say which lifts were tested long ago."""
    old = [
        f"{key.replace('_', ' ')} {lift.tested}"
        for key, lift in sorted(athlete.lifts.items())
        if lift.tested and (week.monday - lift.tested).days > 7 * OLD_WEEKS
    ]
    if old:
        yield f"tested more than {OLD_WEEKS} weeks ago, test again: {', '.join(old)}"


def _lighter(hold: Hold) -> str:
    """Return the shares of the last 1RM that loads are taken from, with the days they begin."""
    days = [(day, each.load) for day, each in hold.days]
    if min([hold.load, *(load for _, load in days)]) >= 1:
        return ""
    if len({load for _, load in days}) < 2:
        return f"{100 * hold.load:.0f} %"
    turns = [days[0], *(now for was, now in pairwise(days) if now[1] != was[1])]
    return ", ".join(f"{100 * load:.0f} % from {day:%a %d %b}" for day, load in turns)


def _notes(athlete: Athlete, week: WeekInfo, hold: Hold) -> Iterable[str]:
    if lighter := _lighter(hold):
        yield f"loads are taken from {lighter} of the last 1RM: {hold.why}"
    if athlete.partly_away(week.monday, week.sunday):
        away = (athlete.unavailable_from, athlete.unavailable_to)
        yield f"not available {' to '.join(str(day) if day else '...' for day in away)}"
    if athlete.young:
        yield YOUNG
    if week.retest and hold.free:
        yield retest_words(week.retest)
    yield from _old_tests(athlete, week)
    yield from (slip for _, lift in sorted(athlete.lifts.items()) for slip in lift.slips)
    if week.days_off >= week.restart.days_off:
        yield f"{week.days_off} days without training before this week: begin well below the plan"
