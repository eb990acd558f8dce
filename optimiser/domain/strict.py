"""The base of every domain type."""

from typing import Any, get_args

from pydantic import BaseModel, ConfigDict, ValidationInfo, field_validator


class Strict(BaseModel):
    """Frozen data that refuses unknown keys, and true or false where a number must stand."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    @field_validator("*", mode="before")
    @classmethod
    def _refuse_truth_for_number(cls, value: Any, info: ValidationInfo) -> Any:
        if isinstance(value, bool) and _wants_number(cls, info.field_name or ""):
            raise ValueError(f"must be a number (got {str(value).lower()}); write the number")
        return value


def _wants_number(model: type[BaseModel], name: str) -> bool:
    annotation = model.model_fields[name].annotation
    kinds = {annotation, *get_args(annotation)}
    return bool(kinds & {int, float}) and bool not in kinds
