"""Why sessions stand on their days, in a coach's sentences."""

from collections.abc import Sequence

from cli.render.terminal import filled, hanging
from optimiser.days.other_days import OtherDay, SessionDays, Verdict
from optimiser.domain.wording import listed

SAID: dict[Verdict, str] = {
    "not possible": "no place for it",
    "breaks": "would break a rule",
    "liked less": "would do, but is liked less",
    "as good": "would do as well",
}


def days_why(sessions: Sequence[SessionDays]) -> str:
    """Return a paragraph a session: why its day, and what each other day would mean."""
    return "\n\n".join("\n".join(_session(each)) for each in sessions)


def _session(session: SessionDays) -> list[str]:
    place = session.place.title()
    head = f"{place} stands on {session.date:%A}{_near(session.label)}"
    free = [f"{day.date:%A}" for day in session.others if day.verdict == "as good"]
    less = any(day.verdict == "liked less" for day in session.others)
    if session.asked:
        why = "because it was asked for."
    elif free:
        why = f"though {listed(free)} would do as well; the usual order of days decides."
    elif less:
        why = "the day that is liked best of those that keep the rules."
    elif session.others:
        why = "the only day that keeps the rules."
    else:
        why = "and every day has one."
    return [filled(f"{head}: {why}"), *map(_line, session.others)]


def _line(day: OtherDay) -> str:
    return hanging(f"- {_other(day)}")


def _other(day: OtherDay) -> str:
    why = "; ".join(_small(reason, day) for reason in day.why)
    return f"{day.date:%A}{_near(day.label)} {SAID[day.verdict]}{': ' if why else ''}{why}."


def _small(reason: str, day: OtherDay) -> str:
    """Return a reason without the name of the day that the line begins with."""
    return reason.removeprefix(f"{day.date:%A}: ")


def _near(label: str) -> str:
    return f" ({label})" if label else ""
