"""Text from users in pictures: on one line, cut to its room, and only signs there is type for."""

from functools import cache

from matplotlib.font_manager import FontProperties, fontManager, get_font

from cli.render.pictures.theme import FAMILIES
from cli.render.words import one_line

#: Drawn for a sign that no installed font has.
UNKNOWN = "\u25af"


def drawable(text: str, most: int = 60) -> str:
    """Return ``text`` on one line of at most ``most`` signs, unknown ones as an empty box."""
    known = _known()
    return "".join(sign if ord(sign) in known else UNKNOWN for sign in one_line(text, most))


@cache
def _known() -> frozenset[int]:
    installed = {font.name for font in fontManager.ttflist}
    paths = [
        fontManager.findfont(FontProperties(family=[name]))
        for name in FAMILIES
        if name in installed
    ]
    return frozenset().union(*(get_font(path).get_charmap() for path in paths))
