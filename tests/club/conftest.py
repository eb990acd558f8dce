import pytest
from club_seasons import squad


@pytest.fixture(scope="session")
def alike():
    """Two squads that want the same hours, the first of which gives way last."""
    return squad("First", weight=3), squad("Second")
