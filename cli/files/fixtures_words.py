"""Words by which a training, a match that is off and a friendly are known."""

import re

TRAINING = re.compile(r"\b(trainings?|practices?|sessions?|meetings?)\b|\bcamps?$", re.I)
# A practice match is a match, and so is whatever names two sides.
MATCH = re.compile(r"\b(practice|training) (match|game)|\b(v|vs|versus)\b|@", re.I)
POSTPONED = re.compile(r"\bpostponed\b", re.I)
CANCELLED = re.compile(r"\b(cancell?ed|abandoned|called off)\b", re.I)


def event_kind(text: str) -> str:
    """Return why ``text`` names no match to plan around, or an empty string."""
    if POSTPONED.search(text):
        return "postponed"
    if CANCELLED.search(text):
        return "cancelled"
    return "training" if TRAINING.search(text) and not MATCH.search(text) else ""
