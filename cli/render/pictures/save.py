"""A picture as bytes of a file."""

import io
import re
from typing import Any

from matplotlib.figure import Figure

from cli.render.pictures.theme import PAGE, PRINT, Theme, drawing, page_colours

#: Dots an inch: A3 comes to 2481 x 1754, sharp on a laptop and in print.
DOTS = 150
UNDATED = {"Date": None}


def png_bytes(figure: Figure, dots: int = DOTS) -> bytes:
    """Return a picture as PNG."""
    return _saved(figure, PRINT, format="png", dpi=dots)


def svg_bytes(figure: Figure) -> bytes:
    """Return a picture as SVG that looks alike everywhere: letters are drawn."""
    return _saved(figure, PRINT, format="svg", metadata=UNDATED)


def inline_svg(figure: Figure, prefix: str) -> str:
    """Return a picture drawn in PAGE as an element of a page; letters stay letters.

    Parameters
    ----------
    prefix
        Of its ids, so that pictures of one page do not share any.
    """
    letters = {"svg.fonttype": "none"}
    text = _saved(figure, PAGE, letters, format="svg", metadata=UNDATED).decode("utf-8")
    text = text[text.index("<svg") :]
    text = re.sub(r"<metadata>.*?</metadata>", "", text, flags=re.DOTALL)
    text = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(<svg[^>]*?) height="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(\bid="|url\(#|href="#)', rf"\g<1>{prefix}", text)
    return page_colours(text)


def _saved(figure: Figure, theme: Theme, more: dict[str, Any] | None = None, **how: Any) -> bytes:
    """Save under the settings it was drawn with: some are looked up only now."""
    out = io.BytesIO()
    with drawing(theme, **(more or {})):
        figure.savefig(out, **how)
    return out.getvalue()
