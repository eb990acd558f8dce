"""The base of every domain type."""

from pydantic import BaseModel, ConfigDict


class Strict(BaseModel):
    """Frozen data that refuses unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)
