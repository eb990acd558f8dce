"""Rules as a coach calls them."""

from constraints import CATALOGUE


def asked_by(name: str) -> str:
    """Return what a rule asks for, and its name: ``lighter weeks (rule deload)``."""
    rule = CATALOGUE.get(name)
    return f"{rule.asks} (rule {name})" if rule and rule.asks else f"the rule {name}"
