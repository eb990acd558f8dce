"""Which rules a scenario has."""

from constraints.load import load_rules
from constraints.pin import Pin


def names(tables):
    return {rule.name for rule in load_rules(tables)}


def test_a_rule_that_is_not_in_use_by_itself_is_taken_up_by_its_table(monkeypatch):
    monkeypatch.setattr(Pin, "in_use", False)

    assert "pin" not in names({})
    assert "pin" in names({"pin": {}})
    assert "pin" not in names({"pin": {"use": False}})
