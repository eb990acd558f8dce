"""Days of the week beside a date, in the languages that months are read in."""

import re

#: By how their names begin, Monday first.
WEEKDAYS = (
    ("mon", "lun", "mo", "ma"),
    ("tue", "mar", "di"),
    ("wed", "mer", "mie", "mié", "mi", "wo"),
    ("thu", "jeu", "jue", "gio", "do"),
    ("fri", "ven", "vie", "fr", "vr"),
    ("sat", "sam", "sab", "sáb", "sa", "za"),
    ("sun", "dim", "dom", "so", "zo"),
)
STARTS = {start: day for day, starts in enumerate(WEEKDAYS) for start in starts}
ENGLISH = tuple(starts[0] for starts in WEEKDAYS)
_STARTS = "|".join(sorted(STARTS, key=len, reverse=True))
BEFORE = re.compile(rf"({_STARTS})[^\W\d_]*[,.]*\s+(?=.*\d)", re.I)
AFTER = re.compile(rf"[\s,]*\(?\b({_STARTS})[^\W\d_]*\.?\)?", re.I)
ALONE = re.compile(rf"({_STARTS})[^\W\d_]*\.?", re.I)
#: A day with its month beside it, so that what stands before it is no month.
DAY_AND_MONTH = re.compile(
    r"\d{1,2}(?:st|nd|rd|th|er|[ºª°])?[\s./-]*(?:de\s+|of\s+)?[^\W\d_]{3}|\d{1,4}[/.-]\d", re.I
)
MONTH_AND_DAY = re.compile(r"[^\W\d_]{3,}\.?\s+\d{1,2}")


def without_weekday(cell: str) -> tuple[str, int | None]:
    """Return a date without the day of the week, and that day (0 is Monday) if it is there."""
    plain = " ".join(cell.split())
    found = BEFORE.match(plain)
    if found:
        rest, start = plain[found.end() :], found[1].lower()
        # "Mar 5" is a month in English and a day of the week in French
        if (start in ENGLISH) or DAY_AND_MONTH.match(rest):
            return rest, STARTS[start]
    for after in AFTER.finditer(plain):
        before = plain[: after.start()]
        said = DAY_AND_MONTH.search(before) or MONTH_AND_DAY.search(before)
        if after.end() == len(plain) and said:
            return before, STARTS[after[1].lower()]
    return plain, None


def weekday_named(text: str) -> int | None:
    """Return the day of the week (0 is Monday) that a cell names, or None."""
    found = ALONE.fullmatch(text.strip())
    return STARTS[found[1].lower()] if found else None
