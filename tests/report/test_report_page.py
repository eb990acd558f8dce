import re

import pytest

from cli.render.clean_text import clean
from cli.report.page_file import page_text
from cli.report.report import Note


@pytest.fixture(scope="module")
def page(small):
    return page_text(small)


def test_the_page_names_nothing_outside_itself(page):
    addresses = re.findall(r'(?:src|href|action|url)\s*[=(]\s*["\']?([^"\' )>]+)', page)

    assert addresses
    assert [a for a in addresses if not a.startswith(("#", "data:"))] == []


def test_the_page_lets_only_its_own_script_run(page):
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', page)[1]

    assert "default-src 'none'" in policy
    assert page.count("<script") == 1
    assert "unsafe-inline" not in policy.split("script-src")[1]


def test_every_week_has_its_days_and_each_link_leads_somewhere(page):
    ids = set(re.findall(r'\bid="([^"]+)"', page))
    links = set(re.findall(r'<a [^>]*href="#([^"]+)"', page))

    assert {f"week-{number}" for number in range(1, 15)} <= ids
    assert links <= ids


def test_care_and_rules_are_told_once(page, small):
    assert page.count('id="care-title"') == 1
    for rule in small.rules:
        assert f"<dt>{rule.name}</dt>" in page


def test_tables_have_heads_for_columns_and_rows(page):
    tables = re.findall(r"<table.*?</table>", page, re.DOTALL)

    assert len(tables) >= 16
    assert all('scope="col"' in table and 'scope="row"' in table for table in tables)


def test_notes_from_elsewhere_have_a_section_of_their_own(small):
    note = Note("Prices", "What each rule costs.", ("Rule", "Cost"), (("<b>taper</b>", "3.1"),))
    page = page_text(
        type(small)(small.loaded, small.rules, small.document, small.plan, small.weeks, (note,))
    )

    assert ">Prices</a>" in page
    assert "&lt;b&gt;taper&lt;/b&gt;" in page
    assert "<b>taper" not in page


def test_names_never_become_markup(hard):
    page = page_text(hard)

    assert "<script>document" not in page
    assert "<img" not in page
    assert page.count("<script") == 1
    assert page.count("</script>") == 1


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ("a\nb\t c", "a b c"),
        ("\u202eabc\u2069", "abc"),
        ("bell\x07", "bell"),
        ("\ud800x", "x"),
        ("\U0001f468\u200d\U0001f469", "\U0001f468\u200d\U0001f469"),
        ("", ""),
    ],
)
def test_text_is_cleaned_of_what_steers_and_of_nothing_else(given, told):
    assert clean(given) == told
