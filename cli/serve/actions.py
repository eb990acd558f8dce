"""What the page can have done, by name."""

import datetime as dt
from collections.abc import Callable
from typing import Any

from pydantic import BaseModel, Field, TypeAdapter

from cli.serve import asking
from cli.serve.desk import Desk
from cli.serve.drafting import Reading, Wish
from cli.serve.keeping import NotNowError
from cli.serve.session import Session
from optimiser.days.day import minutes_of
from optimiser.days.holds import DayHold, Thing
from optimiser.domain.edits import Edit

EDITS: TypeAdapter[list[Edit]] = TypeAdapter(list[Edit])
TEXT: TypeAdapter[str] = TypeAdapter(str)
NUMBER: TypeAdapter[int] = TypeAdapter(int)
Action = Callable[[Desk, Any], dict[str, Any] | None]


def season_on_desk(desk: Desk) -> Session:
    """Return the season on the desk.

    Raises
    ------
    NotNowError
        If there is none.
    """
    if desk.session is None:
        raise NotNowError("No season is open; load the page again.")
    return desk.session


def _on_season(do: Callable[[Session, dict[str, Any]], None]) -> Action:
    """Return an action on the season as the page shows it; refused if it is another by now."""

    def act(desk: Desk, data: Any) -> None:
        session = season_on_desk(desk)
        if not isinstance(data, dict):
            raise TypeError("must be a table")
        with session.lock:
            session.check(data.get("revision"))
            do(session, data)

    return act


def _text(data: dict[str, Any], key: str) -> str:
    return TEXT.validate_python(data.get(key))


def _number(data: dict[str, Any], key: str) -> int:
    return NUMBER.validate_python(data.get(key))


def _edit(session: Session, data: dict[str, Any]) -> None:
    edits = EDITS.validate_python(data.get("edits"))
    if not edits:
        raise ValueError("no edits")
    session.edit(edits, sure=data.get("sure") is True)


def _cost(session: Session, data: dict[str, Any]) -> None:
    asking.ask_cost(session, _number(data, "week"), _text(data, "quality"), _text(data, "dose"))


def _release(session: Session, data: dict[str, Any]) -> None:
    session.release(_number(data, "week"), _text(data, "quality"))


CELLS: TypeAdapter[dict[str, str]] = TypeAdapter(dict[str, str])


def _record(session: Session, data: dict[str, Any]) -> None:
    cells = CELLS.validate_python(data.get("cells"))
    session.record({name: value for name, value in cells.items() if value})


def _enter(session: Session, data: dict[str, Any]) -> None:
    session.enter(CELLS.validate_python(data.get("cells")))


def _enlist(session: Session, data: dict[str, Any]) -> None:
    session.enlist(_text(data, "lines"), _text(data, "file"))


class Shift(BaseModel, extra="forbid"):
    """A session or practice of a week, moved from one day (Monday is 0) to another."""

    thing: Thing
    day: int = Field(ge=0, le=6)
    to: int = Field(ge=0, le=6)
    at: dt.time | None = None


def _place(session: Session, data: dict[str, Any]) -> None:
    given = data.get("shift")
    shift = None if given is None else Shift.model_validate(given)
    session.place(_number(data, "week"), [] if shift is None else _holds(shift))


def _holds(shift: Shift) -> list[DayHold]:
    start = None if shift.at is None else minutes_of(shift.at)
    on = DayHold(shift.thing, shift.to, True, start)
    return [on] if shift.day == shift.to else [DayHold(shift.thing, shift.day, False), on]


def _away(desk: Desk, data: Any) -> None:
    desk.away()


def _open(desk: Desk, data: Any) -> None:
    desk.open_named(_text(data, "path"))


def _demo(desk: Desk, data: Any) -> None:
    desk.open_demo(_text(data, "path"))


def _look(desk: Desk, data: Any) -> None:
    desk.look(_text(data, "folder"))


def _read_again(desk: Desk, data: Any) -> dict[str, Any]:
    return desk.read_again(Reading.model_validate_json(_text(data, "reading")))


def _make(desk: Desk, data: Any) -> None:
    desk.make(Wish.model_validate_json(_text(data, "wish")))


ACTIONS: dict[str, Action] = {
    "edit": _on_season(_edit),
    "take-back": _on_season(lambda session, data: session.take_back(_number(data, "number"))),
    "undo": _on_season(lambda session, data: session.undo()),
    "redo": _on_season(lambda session, data: session.redo()),
    "all-back": _on_season(lambda session, data: session.all_back()),
    "loosen": _on_season(lambda session, data: session.loosen(_number(data, "number"))),
    "release": _on_season(_release),
    "stop": _on_season(lambda session, data: session.stop()),
    "go-on": _on_season(lambda session, data: session.go_on()),
    "prove": _on_season(lambda session, data: session.prove()),
    "save": _on_season(lambda session, data: session.save()),
    "take-in": _on_season(lambda session, data: session.take_in()),
    "record": _on_season(_record),
    "place": _on_season(_place),
    "enter": _on_season(_enter),
    "enlist": _on_season(_enlist),
    "restore": _on_season(lambda session, data: session.restore(_number(data, "number"))),
    "keep": _on_season(lambda session, data: session.keep(_text(data, "name"))),
    "forget": _on_season(lambda session, data: session.forget(_text(data, "name"))),
    "use": _on_season(lambda session, data: session.use(_text(data, "name"))),
    "cost": _on_season(_cost),
    "price": _on_season(lambda session, data: asking.ask_price(session, _text(data, "rule"))),
    "ways": _on_season(lambda session, data: asking.ask_ways(session)),
    "take-way": _on_season(lambda session, data: asking.take_way(session, _text(data, "letter"))),
    "ask-no-more": _on_season(lambda session, data: session.ask_no_more()),
    "away": _away,
    "open": _open,
    "demo": _demo,
    "look": _look,
    "read-again": _read_again,
    "make": _make,
}
