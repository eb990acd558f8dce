"""Like weeks: neighbours between which nothing in the calendar explains another dose."""

from optimiser.domain.season import Season

#: Last weeks up to a peak, which taper.
TAPER = 2


def like_before(season: Season) -> list[bool]:
    """Tell for each week whether it is like the week before, as far as the calendar goes.

    Both are open, without breaks, with as many matches (none or one), and not the last weeks
    before a high fixture. Whether a block starts between them is the plan's to say.
    """
    plain = [_plain(season, week) for week in range(len(season.weeks))]
    return [
        week > 0
        and plain[week]
        and plain[week - 1]
        and len(season.weeks[week].fixtures) == len(season.weeks[week - 1].fixtures)
        for week in range(len(season.weeks))
    ]


def _plain(season: Season, week: int) -> bool:
    here = season.weeks[week]
    near = season.weeks[week : week + TAPER]
    tapers = any(fixture.priority.great for each in near for fixture in each.fixtures)
    return not (here.closed or here.breaks or tapers) and len(here.fixtures) < 2
