"""The pages that are made from the code are what the code says today."""

import re
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
sys.path.insert(0, str(DOCS))

from make_reference import PAGES  # noqa: E402

LINK = re.compile(r"\]\(([^)#:]+)\)")
PAGES_WITH_LINKS = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(DOCS.rglob("*.md"))]


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_current(name):
    written = (DOCS / name).read_text(encoding="utf-8")

    assert written == PAGES[name](), "run python docs/make_reference.py"


@pytest.mark.parametrize("name", ["scenario.md", "rules.md"])
def test_every_key_is_explained(name):
    silent = [row for row in PAGES[name]().splitlines() if re.search(r"\|  \|$", row)]

    assert silent == []


@pytest.mark.parametrize("page", PAGES_WITH_LINKS, ids=lambda page: str(page.relative_to(ROOT)))
def test_links_lead_somewhere(page):
    links = LINK.findall(page.read_text(encoding="utf-8"))

    assert [link for link in links if not (page.parent / link).exists()] == []


def test_the_readme_is_short():
    assert len((ROOT / "README.md").read_text(encoding="utf-8").splitlines()) < 130
