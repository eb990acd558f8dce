"""Session cards as one page for phones: no network, no script, no other file."""

from collections.abc import Sequence
from importlib.resources import files
from itertools import groupby

from markupsafe import Markup

from cli.render.cards import care_words
from cli.render.cards_data import sheets
from cli.report.templates import filled_template
from optimiser.athlete.card import Card

PAGES = "cli.report"


def cards_page(cards: Sequence[Card], name: str) -> str:
    """Return the page of a set of cards, athlete by athlete.

    Parameters
    ----------
    name
        Of the season.
    """
    style = files(PAGES).joinpath("page", "cards.css").read_text(encoding="utf-8")
    people = [
        (athlete, list(found))
        for athlete, found in groupby(sheets(cards), lambda each: each.athlete)
    ]
    care = care_words(cards)
    told = {"name": name, "people": people, "care": care, "style": Markup(style)}
    return filled_template(PAGES, "cards.html.j2", told)
