"""Rules used, left out, or set otherwise."""

import copy
from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.work import ScenarioDraft, Telling


class Set(EditBase):
    """Give a rule's parameter another value; ``a.b`` names the entry ``b`` of a table ``a``.

    Parameters
    ----------
    value
        None leaves the parameter out, so that it is what it usually is.
    """

    edit: Literal["set"] = "set"
    rule: str
    parameter: str = Field(min_length=1)
    value: Any

    def make(self, work: ScenarioDraft) -> None:
        """Set it; tables on the way begin with what is usual."""
        *path, last = self.parameter.split(".")
        table = work.rules.setdefault(self.rule, {})
        usual: Any = work.defaults.get(self.rule, {})
        for part in path:
            usual = usual.get(part, {}) if isinstance(usual, Mapping) else {}
            inner = table.setdefault(part, copy.deepcopy(usual))
            if not isinstance(inner, dict):
                do = "name the parameter alone"
                work.refuse("parameter", "must lead through tables", self.parameter, do)
            table = inner
        if self.value is None:
            table.pop(last, None)
        else:
            table[last] = self.value

    def told(self, telling: Telling) -> str:
        """Say to what."""
        return telling.parameter(self.rule, self.parameter, self.value)


class RuleOff(EditBase):
    """Drop a rule."""

    edit: Literal["drop_rule"] = "drop_rule"
    rule: str

    def make(self, work: ScenarioDraft) -> None:
        """Leave it out."""
        work.rules.setdefault(self.rule, {})["use"] = False

    def told(self, telling: Telling) -> str:
        """Say which."""
        return f"{telling.rule(self.rule)} is not used"


class RuleOn(EditBase):
    """Use a rule the scenario dropped, or give it other parameters than it has."""

    edit: Literal["add_rule"] = "add_rule"
    rule: str
    parameters: dict[str, Any] = Field(default_factory=dict)

    def make(self, work: ScenarioDraft) -> None:
        """Use it."""
        table = work.rules.setdefault(self.rule, {})
        table.pop("use", None)
        table.update(copy.deepcopy(self.parameters))

    def told(self, telling: Telling) -> str:
        """Say which."""
        return f"{telling.rule(self.rule)} is used"
