"""JSON for a stream of any encoding."""

import json
from typing import Any


def json_text(data: Any, encoding: str | None = "utf-8") -> str:
    """Return ``data`` as JSON, two blanks deep; with escapes where ``encoding`` is not UTF-8."""
    unicode = (encoding or "").lower().replace("-", "") in ("utf8", "utf8sig")
    return json.dumps(data, indent=2, ensure_ascii=not unicode)
