import datetime as dt
import sys

import pytest

from optimiser.domain.setup_error import SetupError
from optimiser.league.league import make_league
from optimiser.league.public_holidays import public_holidays
from optimiser.league.settings import LeagueSettings

YEAR = (dt.date(2026, 1, 1), dt.date(2026, 12, 31))


@pytest.fixture
def _library():
    pytest.importorskip("holidays", reason="needs seasonwright[calendar]")


@pytest.mark.usefixtures("_library")
def test_english_holidays_of_2026_are_the_published_ones():
    found = public_holidays("GB-ENG", *YEAR)

    # GOV.UK, UK bank holidays, England and Wales 2026.
    assert [f"{day:%d %b}" for day in found] == [
        "01 Jan", "03 Apr", "06 Apr", "04 May", "25 May", "31 Aug", "25 Dec", "26 Dec", "28 Dec",
    ]  # fmt: skip


@pytest.mark.usefixtures("_library")
def test_holidays_without_a_match_are_days_of_rest():
    made = LeagueSettings(start=dt.date(2026, 6, 15), country="IE")
    days = public_holidays("IE", dt.date(2026, 6, 15), dt.date(2027, 6, 13))

    for season in make_league(made):
        taken = {fixture.date for fixture in season.fixtures}
        rests = [item for item in season.breaks if item.kind == "rest"]
        free = [day for day in days if any(item.first <= day <= item.last for item in rests)]
        assert set(free) == set(days) - taken


@pytest.mark.usefixtures("_library")
def test_the_break_falls_where_most_holidays_are():
    made = LeagueSettings(start=dt.date(2026, 6, 15), country="GB-ENG")
    rest = next(i for i in make_league(made)[0].breaks if i.note == "Mid-season break")

    days = public_holidays("GB-ENG", rest.first, rest.last)

    assert len(days) == 2


@pytest.mark.usefixtures("_library")
@pytest.mark.parametrize("country", ["XX", "GB-XYZ", ""])
def test_an_unknown_country_is_refused_with_examples(country):
    with pytest.raises(SetupError, match="GB-ENG"):
        public_holidays(country, *YEAR)


def test_without_the_library_it_says_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "holidays", None)

    with pytest.raises(SetupError, match=r"seasonwright\[calendar\]"):
        public_holidays("NZ", *YEAR)
