"""Text made for a terminal as lines for a page: paragraphs whole, tables left as they are."""


def page_lines(text: str) -> list[str]:
    """Return the paragraphs and points of a text; what was wrapped is put together again."""
    found: list[str] = []
    for line in text.splitlines():
        follows = bool(found) and found[-1] and _goes_on(found[-1], line)
        if follows:
            found[-1] = f"{found[-1]} {line.strip()}"
        else:
            found.append(line.strip())
    return [line for line in found if line]


def _goes_on(before: str, line: str) -> bool:
    """Tell whether a line goes on with the one before: deeply indented, or after no full stop."""
    deep = len(line) - len(line.lstrip())
    if not line.strip():
        return False
    if deep >= 5:
        return True
    return deep == 0 and not line.startswith("- ") and before[-1] not in ".:"
