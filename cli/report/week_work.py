"""What a week's bands are, with their sets at the week's doses: as on a card without limits."""

from collections.abc import Collection

from optimiser.athlete.card import Kit
from optimiser.athlete.card_lines import LineMaker
from optimiser.athlete.dose_sets import scaled_sets
from optimiser.athlete.exercise import Item, Span
from optimiser.athlete.library import Library
from optimiser.athlete.load_in_block import progressed
from optimiser.athlete.squad import Athlete
from optimiser.domain.document import QualityPart, WeekPart
from optimiser.domain.quality import Dose, Quality, dose_of
from optimiser.domain.season import Season

#: Somebody whom nothing holds back.
ANYONE = Athlete(name="anyone", group="squad", body_mass_kg=75, plyometrics_ready=True)


def week_work(
    season: Season,
    week: WeekPart,
    library: Library,
    kit: Kit,
    only: Collection[str] | None = None,
) -> tuple[str, ...]:
    """Return a line for each quality that is trained: band, its name, its sets.

    Exercises are those that the club has equipment for, each once a week, and loads those of the
    week of the block, as on the cards.

    Parameters
    ----------
    only
        Keys of the qualities that are told; left out, all of them.
    """
    maker = LineMaker(ANYONE, frozenset(), library, kit)
    parts = [(quality, week.qualities[quality.key]) for quality in season.qualities]
    told = [
        (quality.key, f"{part.band} {part.label}{_sets(quality, part, maker, week.block_week)}")
        for quality, part in parts
        if part.rung is not None and dose_of(part.dose) is not Dose.NONE
    ]
    return tuple(line for key, line in told if only is None or key in only)


def _sets(quality: Quality, part: QualityPart, maker: LineMaker, block_week: int | None) -> str:
    assert part.rung is not None
    written = maker.library.items(quality, part.rung - 1)
    if not written:
        return f": {quality.bands[part.rung - 1].work} (a full week; {part.dose} here)"
    chosen, left_out = maker.choose(written)
    items = progressed(chosen, maker.library, block_week)
    other = "" if items == chosen else f", week {block_week} of the block"
    sets = [_item(item, dose_of(part.dose), maker.library) for item in items]
    return f"{other}: {'; '.join([*sets, *left_out])}"


def _item(item: Item, dose: Dose, library: Library) -> str:
    name = library.exercises[item.exercise].name
    sets = scaled_sets(item.sets, dose)
    if item.metres is not None:
        return f"{name} {sets} x {item.metres:g} m"
    if item.reps is not None:
        percent = f" at {_span(item.percent)} %" if item.percent else ""
        return f"{name} {sets} x {_span(item.reps)}{percent}"
    return f"{name} {sets} x {_span(item.seconds)} s" if item.seconds else f"{name} {sets} sets"


def _span(span: Span) -> str:
    low, high = span
    return f"{low:g}" if low == high else f"{low:g}-{high:g}"
