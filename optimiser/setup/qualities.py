"""The qualities of a scenario: the default ladders with its changes laid over them."""

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from optimiser.athlete.exercise import Item
from optimiser.athlete.library import Library, default_library, own_library
from optimiser.athlete.minutes import work_minutes
from optimiser.athlete.weekly_amounts import work_amounts
from optimiser.domain.quality import Band, Dose, Quality
from optimiser.domain.scenario import Scenario
from optimiser.domain.setup_error import SetupError
from optimiser.setup.default_ladders import Table, default_tables

#: Doses in the order of a band's minutes.
WORKED = (Dose.TOUCH, Dose.REDUCED, Dose.FULL)


def default_qualities() -> tuple[Quality, ...]:
    """Return the default ladders."""
    library = default_library()
    return tuple(
        prescribed(Quality(key=key, **table), library, {})
        for key, table in default_tables().items()
    )


def laid_over(under: Mapping[str, Any], over: Mapping[str, Any]) -> Table:
    """Return ``under`` with the keys of ``over`` put in, tables key by key, lists whole."""
    merged = dict(under)
    for key, value in over.items():
        both = isinstance(value, Mapping) and isinstance(merged.get(key), Mapping)
        merged[key] = laid_over(merged[key], value) if both else value
    return merged


def quality_tables(scenario: Scenario) -> dict[str, Table]:
    """Return the plain table of every quality in use, by key and in order.

    Raises
    ------
    SetupError
        If none is left, ``use`` is not true or false, one that is not there is left out, or
        ``order`` does not name each once.
    """
    known = default_tables()
    for key, table in scenario.qualities.items():
        if key not in known and table.get("use") is False:
            raise _unknown(key, list(known))
    merged = laid_over(known, scenario.qualities)
    used = {key: table for key, table in merged.items() if _in_use(key, table)}
    if not used:
        raise SetupError("qualities", "at least one must be in use", "none", "drop a use = false")
    return {key: used[key] for key in _ordered(scenario.order, list(used))}


def build_qualities(scenario: Scenario) -> tuple[Quality, ...]:
    """Return the checked qualities of ``scenario``, in order, their bands with minutes."""
    library = own_library(scenario.prescriptions, scenario.exercises)
    return tuple(
        prescribed(Quality(key=key, **table), library, scenario.qualities.get(key, {}))
        for key, table in quality_tables(scenario).items()
    )


def prescribed(quality: Quality, library: Library, asked: Mapping[str, Any]) -> Quality:
    """Return a quality whose bands say what their sets come to: minutes, contacts, metres.

    Parameters
    ----------
    asked
        What a scenario says of it; minutes that it gives a dose stand.
    """
    doses = asked.get("doses", {})
    given = [doses.get(dose.word, {}).get("minutes") for dose in WORKED]
    bands = [
        _counted(band, library.items(quality, rung), library, given)
        for rung, band in enumerate(quality.bands)
    ]
    return quality.model_copy(update={"bands": tuple(bands)})


def _counted(
    band: Band, items: Sequence[Item], library: Library, given: Sequence[int | None]
) -> Band:
    if not items or band.minutes is not None:
        return band
    taken = [work_minutes(items, library.exercises, dose) for dose in WORKED]
    by_dose = [work_amounts(items, library.exercises, dose) for dose in WORKED]
    new = by_dose[-1].keys() - band.amounts.keys()
    return band.model_copy(
        update={
            "minutes": tuple(own or each for own, each in zip(given, taken, strict=True)),
            "held": {name: tuple(found.get(name, 0) for found in by_dose) for name in new},
            "amounts": {**band.amounts, **{name: by_dose[-1][name] for name in new}},
        }
    )


def _in_use(key: str, table: Table) -> bool:
    use = table.pop("use", True)
    if not isinstance(use, bool):
        raise SetupError(f"qualities.{key}.use", "must be true or false", repr(use), "write false")
    if "key" in table:
        raise SetupError(
            f"qualities.{key}.key", "is the table's own name", repr(table["key"]), "take it out"
        )
    return use


def _unknown(key: str, known: list[str]) -> SetupError:
    close = get_close_matches(key, known, 1)
    do = f"did you mean {close[0]}?" if close else "take the table out"
    return SetupError(
        f"qualities.{key}", f"left out must be one of {', '.join(known)}", repr(key), do
    )


def _ordered(order: tuple[str, ...], keys: list[str]) -> list[str]:
    if order and sorted(order) != sorted(keys):
        raise SetupError(
            "order",
            f"must name each quality in use once ({', '.join(keys)})",
            ", ".join(order),
            "correct the list or leave it out",
        )
    return list(order or keys)
