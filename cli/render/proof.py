"""What is proven of a plan, in the same words wherever it is told."""

from cli.render.words import one_line
from optimiser.domain.document import PlanDocument, SeasonPart, SteadyPart

#: What ended the search.
DECIDED = {
    "proof": "The search ended with a proof",
    "gap": "The search ended at the gap asked for",
    "steps": "The search ended after its fixed effort",
    "clock": "The clock ended the search: another run may end elsewhere",
    "hand": "The search was ended by hand",
}
CONFIRMED = {
    None: "",
    True: " Another solver came to the same end.",
    False: " Another solver found something better: take the proof for void.",
}


def proof(season: SeasonPart | None) -> str:
    """Return what is proven of a plan in a word or two; nothing if nothing is known."""
    if season is None:
        return ""
    if season.status == "proven":
        return "proven best"
    if season.gap is None:
        return "not bounded"
    return f"within {max(0.1, 100 * season.gap):.1f} %"


#: The plans that a proof speaks of: of those that keep every rule, and of the nearest ones.
KEEPS, NEAREST = "keeps these rules", "gives up as little"
#: What is added where a plan is made for other responses than thought.
TRUSTS = " and trusts the response as it is thought"
#: What is added where a plan made for other responses lifts no great match by a point.
LITTLE_WON = "No great match gains a point by it: the usual plan is as steady there."


def document_lines(document: PlanDocument) -> list[str]:
    """Return the same of a plan that was searched for; nothing of another."""
    if document.season is None:
        return []
    others = NEAREST if document.concessions else KEEPS
    told = season_lines(document.season, f"{others}{TRUSTS if document.steady else ''}")
    return [*told, *(steady_lines(document.steady) if document.steady else [])]


def steady_lines(steady: SteadyPart) -> list[str]:
    """Return what a plan is worth in the worst tenth of settings, beside the usual plan."""
    told = ", ".join(
        f"{one_line(match.fixture, 30)} (week {match.week}) {match.ready:.1f} instead of "
        f"{match.usual:.1f}"
        for match in steady.matches
    )
    spare = max(0.0, steady.cost - steady.bound)
    share = spare / steady.cost if steady.cost else 0.0
    return [
        f"Made for the worst tenth of {steady.settings} settings of the response, drawn up to 20 % "
        f"from what is thought.",
        f"Planned readiness there, by this plan and the usual one: {told}.",
        f"With those matches counted so it costs {steady.cost:.1f} points, the usual plan "
        f"{steady.usual:.1f}; none can be more than {100 * share:.2f} % ({spare:.2f} points) "
        "better.",
        *([LITTLE_WON] if all(match.ready - match.usual < 1 for match in steady.matches) else []),
    ]


def season_lines(season: SeasonPart, others: str = KEEPS) -> list[str]:
    """Return what the season costs, part by part, and what is proven of it.

    Parameters
    ----------
    others
        Which plans it is compared with.
    """
    parts = ", ".join(f"{name} {points:.1f}" for name, points in season.parts if points)
    told = f"The season costs {season.cost:.1f} points" + (f": {parts}." if parts else ".")
    ended = f"{DECIDED[season.decided_by]} ({season.seconds:.1f} s)."
    return [told, f"{proof_line(season, others)}{CONFIRMED[season.confirmed]}", ended]


def proof_line(season: SeasonPart, others: str = KEEPS) -> str:
    """Return how much better another plan could be at most, in a sentence."""
    if season.status == "proven":
        return f"Proven best: no plan that {others} costs less."
    if season.bound is None or season.gap is None:
        return "How much better another plan could be was not searched."
    spare = season.cost + season.changes - season.bound
    return (
        f"No plan that {others} can be more than {100 * season.gap:.2f} % "
        f"({spare:.2f} points) better."
    )


def untold(*seasons: SeasonPart | None) -> float | None:
    """Return by how many points the best plans may differ from what is shown; None if unknown."""
    spare = 0.0
    for season in seasons:
        if season is None or season.bound is None:
            return None
        spare = max(spare, season.cost + season.changes - season.bound)
    return spare
