"""The table of evidence is what the program works out today."""

import pytest
from evidence_claims import CLAIMS
from evidence_sources import SOURCES
from evidence_table import PAGE, page


@pytest.mark.parametrize("claim", CLAIMS, ids=lambda claim: f"{claim.source}-{claim.ours[:40]}")
def test_a_row_agrees_or_differs_as_it_says(claim):
    assert claim.holds() is claim.agrees, f"{claim.ours}: {claim.value():g} {claim.unit}"


def test_what_differs_says_why():
    assert all(claim.note for claim in CLAIMS if not claim.agrees)


def test_every_source_is_used():
    assert {claim.source for claim in CLAIMS} == set(SOURCES)


def test_the_page_is_current():
    written = PAGE.read_text(encoding="utf-8")

    assert written == page(), "run python tests/evidence/evidence_table.py"
