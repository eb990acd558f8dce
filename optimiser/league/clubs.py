"""Invented clubs on an invented map."""

import math
from dataclasses import dataclass
from itertools import combinations
from random import Random

#: Syllables of places that are not on any map we know of; 24 x 10 names.
STEMS = [
    "Ardel",
    "Bresken",
    "Corvan",
    "Dunvel",
    "Elsmor",
    "Fenwath",
    "Gorvel",
    "Hasken",
    "Ildar",
    "Jorven",
    "Kelvar",
    "Lorrin",
    "Morvath",
    "Nesker",
    "Orvel",
    "Pellath",
    "Quarvel",
    "Rusken",
    "Selvar",
    "Tarnok",
    "Ulvar",
    "Veskar",
    "Wendrel",
    "Zellan",
]
ENDINGS = ("ford", "by", "mere", "stead", "wick", "combe", "holt", "dale", "moor", "haven")
MOST_CLUBS = len(STEMS)
MAP_KM = 240
KM_AN_HOUR = 70


@dataclass(frozen=True)
class LeagueClub:
    """A club and where its ground lies, in km from the corner of the map."""

    name: str
    east: float
    north: float

    def hours_to(self, east: float, north: float) -> float:
        """Return the one-way travel time, in halves of an hour; none to the own ground."""
        return math.ceil(2 * self.km_to(east, north) / KM_AN_HOUR) / 2

    def km_to(self, east: float, north: float) -> float:
        """Return the distance to a place, in km."""
        return math.hypot(self.east - east, self.north - north)


def invent_clubs(count: int, chance: Random) -> list[LeagueClub]:
    """Return ``count`` clubs, no two with the same beginning of the name."""
    stems = chance.sample(STEMS, count)
    return [
        LeagueClub(
            stem + chance.choice(ENDINGS),
            round(MAP_KM * chance.random(), 1),
            round(MAP_KM * chance.random(), 1),
        )
        for stem in stems
    ]


def neighbours(clubs: list[LeagueClub]) -> set[frozenset[int]]:
    """Return the pairs of rivals: nearest pair first, each club in at most one."""
    pairs = sorted(
        combinations(range(len(clubs)), 2),
        key=lambda pair: (clubs[pair[0]].km_to(clubs[pair[1]].east, clubs[pair[1]].north), pair),
    )
    found: set[frozenset[int]] = set()
    taken: set[int] = set()
    for pair in pairs:
        if not taken & set(pair):
            found.add(frozenset(pair))
            taken |= set(pair)
    return found
