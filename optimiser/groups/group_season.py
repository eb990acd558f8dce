"""One group's season: the shared calendar with the group's own matches in it."""

from optimiser.domain.group import GroupSettings
from optimiser.domain.season import Season, Week


def group_season(season: Season, group: GroupSettings) -> Season:
    """Return the season as one group lives it.

    Dates and targets stay. A match loads, tires and gives by the group's share of it. Weeks before
    the group is back are closed, and their matches are none of its own.
    """
    absent = weeks_absent(season, group)
    return season.model_copy(
        update={
            "weeks": tuple(_week(week, group, away=week.index < absent) for week in season.weeks),
            "qualities": tuple(
                quality.model_copy(update={"match_gain": quality.match_gain * group.stimulus})
                for quality in season.qualities
            ),
            "match_fatigue": season.match_fatigue * group.match_share,
        }
    )


def weeks_absent(season: Season, group: GroupSettings) -> int:
    """Return the weeks before the first Monday from which the group trains."""
    if group.back is None:
        return 0
    return sum(week.monday < group.back for week in season.weeks)


def _week(week: Week, group: GroupSettings, *, away: bool) -> Week:
    if away:
        gone = {"fixtures": (), "match_load": 0, "practice_load": 0, "open_days": 0, "closed": True}
        return week.model_copy(update=gone)
    home = {} if group.travels else {"travel_hours": 0.0}
    return week.model_copy(
        update={
            "fixtures": tuple(fixture.model_copy(update=home) for fixture in week.fixtures),
            "match_load": round(week.match_load * group.match_share),
        }
    )
