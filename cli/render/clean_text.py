"""Text from users made fit for pages, workbooks and calendars: it can be read, and does nothing."""

import unicodedata

#: Signs that turn the order of the text around them; a name needs none of them.
TURNING = frozenset("\u200e\u200f\u061c\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def clean(text: str) -> str:
    """Return ``text`` on one line, without signs that steer a machine or turn other text around.

    Joiners stay, as emoji and several scripts are written with them.
    """
    kept = "".join(" " if _steers(sign) else sign for sign in text if sign not in TURNING)
    return " ".join(kept.split())


def _steers(sign: str) -> bool:
    return unicodedata.category(sign) in ("Cc", "Cs", "Cn", "Zl", "Zp")
