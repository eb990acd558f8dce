"""A plan document as bytes."""

from cli.render.json_text import json_text
from optimiser.domain.document import PlanDocument


def plan_bytes(document: PlanDocument) -> bytes:
    """Return a plan document as it is written to files."""
    return f"{json_text(document.model_dump(mode='json'))}\n".encode()
