"""Text from files made fit for one line of a terminal."""


def capital(text: str) -> str:
    """Return ``text`` as the beginning of a sentence."""
    return f"{text[:1].upper()}{text[1:]}"


def one_digit(value: float | None) -> str:
    """Return a number with one digit after the point, or a dash for none."""
    return "-" if value is None else f"{value:.1f}"


def one_line(text: str, most: int = 60) -> str:
    """Return ``text`` on one line, cut to ``most``, without signs that steer a terminal."""
    clean = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    return clean if len(clean) <= most else f"{clean[: most - 3]}..."
