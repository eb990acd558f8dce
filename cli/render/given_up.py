"""What a plan leaves aside: concessions to a clash, and waivers that the calendar asks for."""

import textwrap

from cli.render.clash import SAFE, SAFE_NOTE
from optimiser.domain.document import PlanDocument

WIDTH = 100
#: Concessions told one by one; those that keep people safe come first.
MOST = 12


def concessions_text(document: PlanDocument) -> str:
    """Return what the nearest plan gives up, safety rules marked; "" if nothing."""
    if not document.concessions:
        return ""
    lines = ["No plan keeps all the rules. This is the nearest one; it gives up:"]
    first = sorted(document.concessions, key=lambda each: not each.safety)
    lines += [
        _line(f"{SAFE if each.safety else '-'} ", f"{each.words} ({each.rule})")
        for each in first[:MOST]
    ]
    if len(first) > MOST:
        lines.append(f"- and {len(first) - MOST} more; --format json and the report list them all.")
    if any(each.safety for each in document.concessions):
        lines.append(SAFE_NOTE)
    return "\n".join(lines)


def waivers_text(document: PlanDocument) -> str:
    """Return what the calendar leaves no room for; "" if there is room for everything."""
    if not document.waivers:
        return ""
    lines = ["What this calendar leaves no room for, and so is not asked:"]
    return "\n".join(lines + [_line("- ", f"{w.words} ({w.rule})") for w in document.waivers])


def _line(sign: str, text: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=sign, subsequent_indent="  ")
