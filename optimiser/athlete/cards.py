"""Turn a week's choices into an athlete's card."""

from collections.abc import Iterable, Sequence

from optimiser.athlete.card import LONG_BREAK, Card, Choice, Kit, Section, WeekInfo
from optimiser.athlete.card_lines import LineMaker
from optimiser.athlete.care import YOUNG
from optimiser.athlete.exercise import Item
from optimiser.athlete.library import Library, default_library
from optimiser.athlete.limits import allowed_rung
from optimiser.athlete.squad import Athlete, Group
from optimiser.athlete.youth import gentler
from optimiser.domain.quality import Dose

USUAL_KIT = Kit()


def card(
    athlete: Athlete,
    choices: Iterable[Choice],
    week: WeekInfo,
    library: Library | None = None,
    kit: Kit = USUAL_KIT,
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
    """
    empty = Card(
        athlete=athlete.name, group=athlete.group, body_mass_kg=athlete.body_mass_kg, week=week
    )
    if athlete.waiting:
        return empty.model_copy(update={"week": _bare(week), "notes": (_not_cleared(athlete),)})
    if athlete.away(week.monday, week.sunday):
        return empty.model_copy(update={"notes": ("not available this week",)})
    used = library or default_library()
    maker = LineMaker(athlete, athlete.banned(week.monday, week.sunday), used, kit)
    worked = (choice for choice in choices if choice.dose is not Dose.NONE)
    sections = tuple(section(choice, maker, joins=week.joins) for choice in worked)
    return empty.model_copy(update={"sections": sections, "notes": tuple(_notes(athlete, week))})


def _bare(week: WeekInfo) -> WeekInfo:
    """Return the week without its sessions: who is not cleared has none."""
    return week.model_copy(update={"field": 0, "gym": 0, "sessions": ()})


def _not_cleared(athlete: Athlete) -> str:
    since = f" since {athlete.unavailable_from}" if athlete.unavailable_from else ""
    return f"not cleared{since}: no work of this plan; ask the medical team, who alone decide"


def section(choice: Choice, maker: LineMaker, *, joins: bool = False) -> Section:
    """Return the work for one quality, on the highest band the athlete may do.

    Parameters
    ----------
    joins
        True in the first week after time off, of a group that comes back.
    """
    quality, planned = choice.quality, choice.quality.bands[choice.rung]
    rung, reasons = allowed_rung(maker.athlete, quality, choice.rung, maker.library, joins=joins)
    band = planned if rung is None else quality.bands[rung]
    items = () if rung is None else maker.library.items(quality, rung)
    if maker.athlete.young and items:
        items = tuple(_young_items(items, choice, maker, joins=joins))
    made = maker.lines(items, choice.dose)
    why = "; ".join(reasons)
    notes = [f"in place of {planned.code}: {why}"] if why else []
    if rung is None:
        notes = [f"no band of this ladder fits, leave it out: {why}"]
    elif not items:
        notes += _unread(maker)
    notes += [remark for _, remarks in made for remark in remarks]
    return Section(
        quality=quality.name,
        place=quality.place,
        planned=planned.code,
        code=band.code,
        label=band.label,
        dose=choice.dose.word,
        work="" if items or rung is None else band.work or band.label,
        lines=tuple(line for line, _ in made if line),
        notes=tuple(dict.fromkeys(notes)),
    )


def _young_items(
    items: Sequence[Item], choice: Choice, maker: LineMaker, *, joins: bool
) -> list[Item]:
    """Hold the items under those of an adult with the same plan and the same limits."""
    grown = maker.athlete.model_copy(update={"age": None, "under_18": None})
    rung, _ = allowed_rung(grown, choice.quality, choice.rung, maker.library, joins=joins)
    adult = () if rung is None else maker.library.items(choice.quality, rung)
    return gentler(items, adult, grown.training_level, maker.library, choice.dose)


def _unread(maker: LineMaker) -> Iterable[str]:
    """Say what the limits could not look into, where a band is words only."""
    if maker.athlete.young:
        yield "under 18: check that this stays below 90 % of the 1RM"
    if maker.banned:
        yield f"check against what is restricted: {', '.join(sorted(maker.banned))}"


def _notes(athlete: Athlete, week: WeekInfo) -> Iterable[str]:
    if athlete.partly_away(week.monday, week.sunday):
        away = (athlete.unavailable_from, athlete.unavailable_to)
        yield f"not available {' to '.join(str(day) if day else '...' for day in away)}"
    if athlete.young:
        yield YOUNG
    if athlete.group is Group.NON_PLAYING and week.fixtures:
        yield (
            "not playing: a match holds about 3 runs above 90 % of top speed "
            "(Young D. et al. 2019, PLoS ONE); make up for them if fit to sprint"
        )
    if week.days_off >= LONG_BREAK:
        yield f"{week.days_off} days without training before this week: begin well below the plan"
