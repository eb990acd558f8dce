"""The letters by which every page marks what kind of week one is."""

from optimiser.domain.document import WeekPart

#: What the letters stand for, in the order they are told.
DELOAD, TAPER, TESTS = "D", "T", "R"
WORDS = {DELOAD: "deload week", TAPER: "taper week", TESTS: "test again"}


def week_marks(week: WeekPart) -> tuple[str, ...]:
    """Return the letters of a week."""
    found = {DELOAD: week.deload, TAPER: week.taper, TESTS: bool(week.retest)}
    return tuple(letter for letter, there in found.items() if there)


def marks_words() -> str:
    """Return what the letters stand for, as one line."""
    return ", ".join(f"{letter} {words}" for letter, words in WORDS.items())


def marks_told(week: WeekPart) -> list[str]:
    """Return what kind of week it is, in words."""
    return [WORDS[letter].removesuffix(" week") for letter in week_marks(week)]
