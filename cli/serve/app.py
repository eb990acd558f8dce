"""The page and what it asks for; only this machine is served."""

import secrets
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup
from pydantic import TypeAdapter, ValidationError
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.routing import Route

from cli.files.errors import InputError
from cli.render.clean_text import clean
from cli.serve.session import NotNowError, Session
from cli.serve.view import page_state, progress_state
from optimiser.domain.changes import Edit

PAGES = "cli.serve"
#: Names this machine calls itself by; a request under any other comes from elsewhere.
NAMES = ["127.0.0.1", "localhost"]
#: Bytes of the longest change.
MOST = 20_000
EDIT: TypeAdapter[Edit] = TypeAdapter(Edit)
POLICY = (
    "default-src 'none'; style-src 'nonce-{nonce}'; script-src 'nonce-{nonce}'; "
    "connect-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)


def make_app(session: Session) -> Starlette:
    """Return the application for one session."""
    token = secrets.token_urlsafe(16)

    async def page(request: Request) -> Response:
        nonce = secrets.token_urlsafe(12)
        headers = {
            "Content-Security-Policy": POLICY.format(nonce=nonce),
            "Cache-Control": "no-store",
        }
        return HTMLResponse(_page(session, token, nonce), headers=headers)

    async def state(request: Request) -> Response:
        return JSONResponse(await run_in_threadpool(page_state, session))

    async def progress(request: Request) -> Response:
        return JSONResponse(progress_state(session))

    def post(action: Callable[[Any], None]) -> Callable[[Request], Any]:
        async def answer(request: Request) -> Response:
            return await _answer(session, token, action, request)

        return answer

    @asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        yield
        session.solver.close()

    routes = [
        Route("/", page),
        Route("/state", state),
        Route("/progress", progress),
        Route(
            "/edit", post(lambda data: session.edit(EDIT.validate_python(data))), methods=["POST"]
        ),
        Route("/take-back", post(lambda data: session.take_back(int(data))), methods=["POST"]),
        Route("/stop", post(lambda _: session.stop()), methods=["POST"]),
        Route("/save", post(lambda _: session.save()), methods=["POST"]),
    ]
    hosts = Middleware(TrustedHostMiddleware, allowed_hosts=NAMES)
    return Starlette(routes=routes, middleware=[hosts], lifespan=lifespan)


async def _answer(
    session: Session, token: str, action: Callable[[Any], None], request: Request
) -> Response:
    """Do what is asked if our own page asks it, and return the new state."""
    if not secrets.compare_digest(request.headers.get("X-Page", ""), token):
        return _refused("Load the page again.", 403)
    if int(request.headers.get("Content-Length", MOST + 1)) > MOST:
        return _refused("That is too long.", 413)
    try:
        data = await request.json()
        await run_in_threadpool(action, data)
    except InputError as error:
        return _refused(_sentence(error), 400)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        return _refused(first["msg"].removeprefix("Value error, "), 400)
    except NotNowError as error:
        return _refused(str(error), 409)
    except (ValueError, TypeError, RecursionError):
        return _refused("That could not be read.", 400)
    return JSONResponse(await run_in_threadpool(page_state, session))


def _sentence(error: InputError) -> str:
    got = f" (got {error.got})" if error.got else ""
    do = f": {error.do}" if error.do else ""
    return clean(f"{error.file}: {error.must}{got}{do}.")


def _refused(words: str, status: int) -> JSONResponse:
    return JSONResponse({"error": words}, status_code=status)


def _page(session: Session, token: str, nonce: str) -> str:
    environment = Environment(
        loader=PackageLoader(PAGES, "page"), autoescape=True, undefined=StrictUndefined
    )
    return environment.get_template("serve.html.j2").render(
        name=clean(session.base.loaded.season.name),
        token=token,
        nonce=nonce,
        style=Markup(_file("serve.css")),
        script=Markup(_file("serve.js")),
    )


def _file(name: str) -> str:
    return files(PAGES).joinpath("page", name).read_text(encoding="utf-8")
