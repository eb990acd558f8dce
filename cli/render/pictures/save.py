"""A picture as bytes of a file."""

import io
import re

from matplotlib.figure import Figure

from cli.render.pictures.theme import page_colours

#: Dots an inch: A3 comes to 2481 x 1754, sharp on a laptop and in print.
DOTS = 150
UNDATED = {"Date": None}


def png_bytes(figure: Figure, dots: int = DOTS) -> bytes:
    """Return a picture as PNG."""
    out = io.BytesIO()
    figure.savefig(out, format="png", dpi=dots)
    return out.getvalue()


def svg_bytes(figure: Figure) -> bytes:
    """Return a picture as SVG that looks alike everywhere: letters are drawn."""
    out = io.BytesIO()
    figure.savefig(out, format="svg", metadata=UNDATED)
    return out.getvalue()


def inline_svg(figure: Figure, prefix: str) -> str:
    """Return a picture drawn in PAGE as an element of a page.

    Parameters
    ----------
    prefix
        Of its ids, so that pictures of one page do not share any.
    """
    text = svg_bytes(figure).decode("utf-8")
    text = text[text.index("<svg") :]
    text = re.sub(r"<metadata>.*?</metadata>", "", text, flags=re.DOTALL)
    text = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(<svg[^>]*?) height="[^"]*"', r"\1", text, count=1)
    text = re.sub(r'(\bid="|url\(#|href="#)', rf"\g<1>{prefix}", text)
    return page_colours(text)
