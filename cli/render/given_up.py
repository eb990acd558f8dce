"""What a plan leaves aside: concessions to a clash, and waivers that the calendar asks for."""

from collections.abc import Sequence

from cli.render.clash import SAFE, SAFE_NOTE
from cli.render.rule_words import asked_by
from cli.render.terminal import bullet, filled
from optimiser.domain.document import ConcessionPart, PlanDocument
from optimiser.domain.wording import listed, weeks_listed

#: Concessions told one by one; those that keep people safe come first.
MOST = 12
#: Stands for a week in words that are compared.
WEEK = "\0"
NEAREST = "No plan keeps all the rules. This is the nearest one; it gives up:"


def concessions_text(document: PlanDocument) -> str:
    """Return what the nearest plan gives up, safety rules marked; "" if nothing."""
    return conceded_text(document.concessions)


def given_up_sentences(document: PlanDocument) -> list[str]:
    """Return in a sentence that a plan is the nearest one; nothing if it gives nothing up."""
    count, safe = len(document.concessions), sum(each.safety for each in document.concessions)
    if not count:
        return []
    told = f", {safe} of which keep{'s' if safe == 1 else ''} people safe" if safe else ""
    things = f"{count} thing{'' if count == 1 else 's'}"
    rules = dict.fromkeys(each.rule for each in document.concessions)
    of = listed([asked_by(rule) for rule in rules])
    nearest = "No plan keeps all the rules; this is the nearest one"
    return [f"{nearest}, and gives up {things}{told}, of: {of}."]


def conceded_text(concessions: Sequence[ConcessionPart]) -> str:
    """Return what the nearest plan gives up, one a line; "" if that is nothing."""
    if not concessions:
        return ""
    lines = [NEAREST]
    first = sorted(alike(concessions), key=lambda each: not each.safety)
    lines += [
        filled(f"{each.words} ({each.rule})", f"{SAFE if each.safety else '-'} ", "  ")
        for each in first[:MOST]
    ]
    if len(first) > MOST:
        lines.append(f"- and {len(first) - MOST} more; --format json and the report list them all.")
    if any(each.safety for each in concessions):
        lines.append(SAFE_NOTE)
    return "\n".join(lines)


def alike(concessions: Sequence[ConcessionPart]) -> list[ConcessionPart]:
    """Return concessions, those that say the same of several weeks as one of all these weeks."""
    weeks: dict[tuple[str, str], list[ConcessionPart]] = {}
    for each in concessions:
        weeks.setdefault((each.rule, each.words.replace(_week(each), WEEK)), []).append(each)
    return [
        same[0].model_copy(update={"words": words.replace(WEEK, weeks_listed(_numbers(same)))})
        for (_, words), same in weeks.items()
    ]


def _week(each: ConcessionPart) -> str:
    return WEEK if each.week is None else f"week {each.week}"


def _numbers(same: Sequence[ConcessionPart]) -> list[int]:
    return [each.week for each in same if each.week is not None]


def waivers_text(document: PlanDocument) -> str:
    """Return what the calendar leaves no room for; "" if there is room for everything."""
    if not document.waivers:
        return ""
    lines = ["What this calendar leaves no room for, and so is not asked:"]
    return "\n".join(lines + [bullet(f"{w.words} ({w.rule})") for w in document.waivers])
