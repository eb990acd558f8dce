"""A plan as one page that needs nothing else: no network, no other file."""

import base64
import hashlib
from importlib.resources import files

from markupsafe import Markup, escape

from cli.render.clean_text import clean
from cli.render.pictures.comparison import comparison_chart
from cli.render.pictures.save import inline_svg
from cli.render.pictures.season import season_chart
from cli.render.pictures.theme import PAGE
from cli.report.page_data import comparison_data, page_data
from cli.report.report import Report
from cli.report.templates import filled_template

PAGES = "cli.report"


def page_text(report: Report) -> str:
    """Return the page of a plan."""
    script, style = _file("report.js"), _file("report.css")
    told = {
        **page_data(report),
        **comparison_data(report),
        **_pictures(report),
        "style": Markup(style),
        "script": Markup(script),
        "script_hash": _hash(script),
    }
    return filled_template(PAGES, "report.html.j2", told)


def _pictures(report: Report) -> dict[str, Markup | None]:
    name = clean(report.season.name)
    figure = season_chart(report.document, report.season, report.rules, theme=PAGE)
    chart = _described(inline_svg(figure, "s-"), f"Season chart of {name}")
    if report.compared is None:
        return {"chart": chart, "comparison": None}
    before = report.compared.before
    figure = comparison_chart(before, report.document, report.season, theme=PAGE)
    both = _described(inline_svg(figure, "c-"), f"What changes in the plan of {name}")
    return {"chart": chart, "comparison": both}


def _file(name: str) -> str:
    return files(PAGES).joinpath("page", name).read_text(encoding="utf-8")


def _hash(script: str) -> str:
    """Return what lets this script run and no other (Content Security Policy Level 3)."""
    digest = hashlib.sha256(script.encode("utf-8")).digest()
    return f"sha256-{base64.b64encode(digest).decode('ascii')}"


def _described(svg: str, words: str) -> Markup:
    """Return a picture with a name for those who do not see it."""
    return Markup(svg.replace("<svg ", f'<svg role="img" aria-label="{escape(words)}" ', 1))
