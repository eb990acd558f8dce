"""The page and what it asks for; only this machine is served."""

import json
import secrets
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

from pydantic import TypeAdapter
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from cli.serve import asking
from cli.serve.actions import ACTIONS, season_on_desk
from cli.serve.answering import body, refusal, refused
from cli.serve.desk import Desk
from cli.serve.drafting import ListFile
from cli.serve.exports import TYPES, made
from cli.serve.keeping import NotNowError
from cli.serve.pages import page, part
from cli.serve.view.state import page_state, progress_state

#: Names this machine calls itself by; a request under any other comes from elsewhere.
NAMES = ["127.0.0.1", "localhost"]
#: Bytes of the longest change, and of the longest fixture list.
MOST, MOST_LIST = 20_000, 5_000_000
NUMBER: TypeAdapter[int] = TypeAdapter(int)
Answer = Callable[[Request], Any]


def make_app(desk: Desk) -> Starlette:
    """Return the application for one desk."""
    token = secrets.token_urlsafe(16)

    async def front(request: Request) -> Response:
        name = desk.session.here.season.name if desk.session else "Start"
        return page(name, token)

    async def progress(request: Request) -> Response:
        here = desk.session
        return JSONResponse(progress_state(here) if here else {"version": -1, "revision": -1})

    @asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        yield
        desk.close()

    routes = [
        Route("/", front),
        Route("/page/{name:path}", lambda request: part(request.path_params["name"])),
        Route("/state", _read(lambda request: state(desk))),
        Route("/progress", progress),
        Route("/cell", _read(lambda request: _cell(desk, request))),
        Route("/week", _read(lambda request: _week(desk, request))),
        Route("/days", _read(lambda request: _days(desk, request))),
        Route("/export/{kind}", _ours(_export(desk), token, link=True)),
        Route("/list", _ours(_list(desk), token), methods=["POST"]),
        Route("/do/{action}", _ours(_act(desk), token), methods=["POST"]),
    ]
    hosts = Middleware(TrustedHostMiddleware, allowed_hosts=NAMES)
    return Starlette(routes=routes, middleware=[hosts], lifespan=lifespan)


def state(desk: Desk) -> dict[str, Any]:
    """Return what is on the desk."""
    return page_state(desk.session) if desk.session else desk.start_state()


def _read(answer: Callable[[Request], Any]) -> Answer:
    """Return what answers a question about what is there."""

    async def get(request: Request) -> Response:
        try:
            return JSONResponse(await run_in_threadpool(answer, request))
        except Exception as error:
            return refusal(error)

    return get


def _number(request: Request, name: str) -> int:
    return NUMBER.validate_python(request.query_params.get(name))


def _cell(desk: Desk, request: Request) -> dict[str, Any]:
    quality = request.query_params.get("quality", "")
    return asking.explained_cell(season_on_desk(desk), _number(request, "week"), quality)


def _week(desk: Desk, request: Request) -> dict[str, Any]:
    return asking.week(season_on_desk(desk), _number(request, "number"))


def _days(desk: Desk, request: Request) -> dict[str, Any]:
    return asking.days(season_on_desk(desk), _number(request, "first"), _number(request, "last"))


def _ours(answer: Answer, token: str, *, link: bool = False) -> Answer:
    """Return what answers our own page alone, and says why where it cannot.

    Parameters
    ----------
    link
        Whether it is opened as a link, which has the token in itself and not in a header.
    """

    async def checked(request: Request) -> Response:
        told = request.query_params.get("t") if link else request.headers.get("X-Page")
        given = told or ""
        if not secrets.compare_digest(given.encode("utf-8", "replace"), token.encode()):
            return refused("Load the page again.", 403)
        try:
            answered: Response = await answer(request)
            return answered
        except Exception as error:
            return refusal(error)

    return checked


def _export(desk: Desk) -> Answer:
    """Return what makes a file of the plan on the page."""

    async def export(request: Request) -> Response:
        kind = request.path_params["kind"]
        week = _number(request, "week") if "week" in request.query_params else None
        file = await run_in_threadpool(lambda: made(season_on_desk(desk), kind, week))
        shown = "inline" if file.name.endswith(".pdf") else "attachment"
        headers = {
            "Content-Disposition": f'{shown}; filename="{file.name}"',
            "Cache-Control": "no-store",
        }
        suffix = file.name[file.name.rindex(".") :]
        return Response(file.data, media_type=TYPES[suffix], headers=headers)

    return export


def _list(desk: Desk) -> Answer:
    """Return what takes in a fixture list."""

    async def take(request: Request) -> Response:
        name = request.query_params.get("name", "fixtures.csv")
        given = ListFile(name, await body(request, MOST_LIST))
        return JSONResponse(await run_in_threadpool(desk.read, given))

    return take


def _act(desk: Desk) -> Answer:
    """Return what does something and tells the new state."""

    async def act(request: Request) -> Response:
        action = ACTIONS.get(request.path_params["action"])
        if action is None:
            raise NotNowError("The page asks for something unknown; load it again.")
        data = json.loads(await body(request, MOST))
        told = await run_in_threadpool(action, desk, data)
        return JSONResponse(await run_in_threadpool(state, desk) if told is None else told)

    return act
