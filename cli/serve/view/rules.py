"""The rules on the page: a sentence each, the places let off, and what can be set of it."""

from collections.abc import Sequence
from typing import Any

from cli.render.clean_text import clean
from cli.render.doc_text import parameters, summary
from cli.render.rule_words import quoted_label, rule_title
from cli.serve.side import SeasonSide
from cli.serve.view.rule_fields import rule_fields
from constraints import CATALOGUE
from optimiser.rule import Rule


def rules_state(here: SeasonSide) -> list[dict[str, Any]]:
    """Return every rule of the catalogue, in use or not."""
    used, keys = {rule.name: rule for rule in here.rules}, here.season.keys
    return [_rule(name, kind, used.get(name), keys) for name, kind in CATALOGUE.items()]


def _rule(
    name: str, kind: type[Rule], used: Rule | None, qualities: Sequence[str]
) -> dict[str, Any]:
    rule = used or kind()
    about = parameters(kind, lambda path: quoted_label(name, path))
    return {
        "name": name,
        "title": rule_title(name),
        "about": clean(summary(kind)),
        "words": clean(rule.words()),
        "safety": kind.safety,
        "source": clean(kind.sources),
        "on": used is not None,
        "waive": [waiver.model_dump(exclude_none=True) for waiver in rule.waive],
        "fields": rule_fields(rule, kind(), about, qualities),
    }
