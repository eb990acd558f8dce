"""Public holidays of a country, from an optional library."""

import datetime as dt
from importlib import import_module
from types import ModuleType

from optimiser.domain.setup_error import SetupError


def public_holidays(country: str, first: dt.date, last: dt.date) -> dict[dt.date, str]:
    """Return the public holidays from ``first`` to ``last``, by date.

    Parameters
    ----------
    country
        ISO 3166 code, with a subdivision if wanted: ``IE``, ``GB-ENG``.

    Raises
    ------
    SetupError
        If the library is missing or does not know the country.
    """
    library = _library()
    nation, _, part = country.partition("-")
    try:
        found = library.country_holidays(
            nation, subdiv=part or None, years=range(first.year, last.year + 1)
        )
    except NotImplementedError:
        raise SetupError(
            "country",
            "must be an ISO code that is known, with a subdivision if wanted",
            country,
            "write one such as NZ, IE or GB-ENG",
        ) from None
    return {day: name for day, name in sorted(found.items()) if first <= day <= last}


def _library() -> ModuleType:
    try:
        return import_module("holidays")
    except ImportError:
        raise SetupError(
            "country",
            "public holidays need the library holidays",
            "an installation without it",
            "run pip install 'seasonwright[calendar]', or leave the country out",
        ) from None
