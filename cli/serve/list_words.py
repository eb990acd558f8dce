"""What is said of a fixture list, with the page's own fields for the options of `new`."""

import re

#: What the page calls what `new` asks by an option.
FIELDS = {
    "year": "\u201cIt begins in the year\u201d",
    "match": "\u201cOnly matches with this in their name\u201d",
    "calendar": "\u201cOnly this calendar or category\u201d",
    "zone": "\u201cTime zone\u201d",
    "club": "\u201cWhose season?\u201d",
}
DATES = {
    "day-first": "\u201cday first\u201d",
    "month-first": "\u201cmonth first\u201d",
}
#: Where a scenario has breaks, and what is done about them on the page.
BREAKS = ("name those that are for rest under [[breaks]]", "mark those that are for rest as breaks")
_OPTION = re.compile(r"`(?:seasonwright new )?--(\w+) ?([^`]*)`")


def list_words(words: str) -> str:
    """Return words with fields of the page for options of the command line."""
    return _OPTION.sub(_field, words).replace(*BREAKS)


def _field(found: re.Match[str]) -> str:
    name, value = found.groups()
    return DATES.get(value) or FIELDS.get(name, found[0])
