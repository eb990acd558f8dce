"""What a week's bands are, with their sets at the week's doses, for no one athlete."""

from optimiser.athlete.dose_sets import scaled_sets
from optimiser.athlete.exercise import Item, Span
from optimiser.athlete.library import Library
from optimiser.domain.document import QualityPart, WeekPart
from optimiser.domain.quality import Dose, Quality, dose_of
from optimiser.domain.season import Season


def week_work(season: Season, week: WeekPart, library: Library) -> tuple[str, ...]:
    """Return a line for each quality that is trained: band, its name, its sets."""
    parts = [(quality, week.qualities[quality.key]) for quality in season.qualities]
    return tuple(
        f"{part.band} {part.label}: {_sets(quality, part, library)}"
        for quality, part in parts
        if part.rung is not None and dose_of(part.dose) is not Dose.NONE
    )


def _sets(quality: Quality, part: QualityPart, library: Library) -> str:
    assert part.rung is not None
    items = library.items(quality, part.rung - 1)
    if not items:
        return f"{quality.bands[part.rung - 1].work} (a full week; {part.dose} here)"
    return "; ".join(_item(item, dose_of(part.dose), library) for item in items)


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
