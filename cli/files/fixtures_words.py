"""Words by which a training, a match that is off and a friendly are known."""

import re

TRAINING = re.compile(r"\b(trainings?|practices?|sessions?|meetings?)\b|\bcamps?$", re.I)
# A practice match is a match, and so is whatever names two sides.
MATCH = re.compile(r"\b(practice|training) (match|game)|\b(v|vs|versus)\b|@", re.I)
POSTPONED = re.compile(r"\b(postponed|verschoben|reporté|aplazado|rinviat[ao])\b(?! from)", re.I)
CANCELLED = re.compile(
    r"\b(cancell?ed|abandoned|called off|washout|abgesagt|annulé|cancelad[ao]|annullat[ao]|"
    r"afgelast)\b",
    re.I,
)
#: Short forms that stand where a time or a result would.
OFF = re.compile(r"p\W?p|ppd\.?|post\.?", re.I)
NOT_PLAYED = re.compile(r"void|c\W?c|canc\.?|w/?o|walk-?over|conceded", re.I)
#: What else stands in a club's calendar, and words by which a match is known there.
OCCASION = re.compile(
    r"\b(agm|awards?|dinner|birthday|fundrais\w+|holidays?|photos?|committee|physio\w*|screening|"
    r"recovery|gym|registration|social|party|deadline|presentation|trials?|assembly|concert|"
    r"(parents'?|open|prize|speech|sports?) (evening|day|giving)|inset|exams?|term|half-?term)\b",
    re.I,
)
PLAYED = re.compile(
    r"\b(match|game|cup|league|final|semi-?final|friendly|round|fixture|plate|shield|trophy|"
    r"tournament|sevens|championship|derby|test)\b",
    re.I,
)
#: What stands for an opponent where nobody is played.
NOBODY = (
    *("bye", "bye week", "rest", "no match", "no game", "no fixture", "free", "free week", "off"),
    *("week off", "spielfrei", "exempt", "open", "open date", "open week"),
)


def is_nobody(opponent: str) -> bool:
    """Return whether what stands for an opponent says that nobody is played."""
    plain = opponent.strip(" *-").lower()
    return bool(opponent.strip()) and (not plain or plain in NOBODY)


def says_match(text: str) -> bool:
    """Return whether ``text`` says that it is played."""
    return bool(MATCH.search(text) or PLAYED.search(text))


def is_occasion(text: str) -> bool:
    """Return whether ``text`` names what stands in calendars beside matches and trainings."""
    return bool(OCCASION.search(text)) and not says_match(text)


def event_kind(text: str) -> str:
    """Return why ``text`` names no match to plan around, or an empty string."""
    if POSTPONED.search(text):
        return "postponed"
    if CANCELLED.search(text):
        return "cancelled"
    return "training" if TRAINING.search(text) and not MATCH.search(text) else ""


def off_kind(text: str) -> str:
    """Return why a match is off, by what stands in the place of its time or result, or ""."""
    kind = event_kind(text)
    if kind == "postponed" or OFF.fullmatch(text.strip()):
        return "postponed"
    return "cancelled" if kind == "cancelled" or NOT_PLAYED.fullmatch(text.strip()) else ""
