"""Edits of a season, each in its file with how it is made and told; this is their catalogue."""

from typing import Annotated, Any, get_args

from pydantic import Discriminator, Tag

from optimiser.domain.edits.add import Add
from optimiser.domain.edits.breaks import AddBreak, DropBreak
from optimiser.domain.edits.closed_days import Close, Open
from optimiser.domain.edits.describe_fixture import Describe
from optimiser.domain.edits.drop import Drop
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.move import Move
from optimiser.domain.edits.pin_choice import PinChoice
from optimiser.domain.edits.rank import Rank
from optimiser.domain.edits.rules import RuleOff, RuleOn, Set


def _kind(given: Any) -> Any:
    return given.get("edit") if isinstance(given, dict) else getattr(given, "edit", None)


#: For the message.
KINDS = (
    "move, add, drop, rank, describe, close, open, add_break, drop_break, "
    "set, drop_rule, add_rule, pin"
)
Edit = Annotated[
    Annotated[Move, Tag("move")]
    | Annotated[Add, Tag("add")]
    | Annotated[Drop, Tag("drop")]
    | Annotated[Rank, Tag("rank")]
    | Annotated[Describe, Tag("describe")]
    | Annotated[Close, Tag("close")]
    | Annotated[Open, Tag("open")]
    | Annotated[AddBreak, Tag("add_break")]
    | Annotated[DropBreak, Tag("drop_break")]
    | Annotated[Set, Tag("set")]
    | Annotated[RuleOff, Tag("drop_rule")]
    | Annotated[RuleOn, Tag("add_rule")]
    | Annotated[PinChoice, Tag("pin")],
    Discriminator(
        _kind,
        custom_error_type="edit_kind",
        custom_error_message=f"must have an edit that is one of {KINDS}",
    ),
]
#: The type of each kind of edit.
EDITS: dict[str, type[EditBase]] = {
    kind.model_fields["edit"].default: kind
    for kind in (get_args(tagged)[0] for tagged in get_args(get_args(Edit)[0]))
}
#: Edits of rules; the others change the calendar.
RULE_EDITS = (Set, RuleOff, RuleOn, PinChoice)

__all__ = [
    "EDITS",
    "KINDS",
    "RULE_EDITS",
    "Add",
    "AddBreak",
    "Close",
    "Describe",
    "Drop",
    "DropBreak",
    "Edit",
    "EditBase",
    "Move",
    "Open",
    "PinChoice",
    "Rank",
    "RuleOff",
    "RuleOn",
    "Set",
]
