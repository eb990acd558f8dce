"""Answers to what the page asks: data, or why not, in words; never a mistake of the server."""

from typing import Any

from pydantic import ValidationError
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from cli.files.errors import InputError, shortened
from cli.render.clean_text import clean
from cli.render.rule_words import without_keys
from cli.serve.keeping import NotNowError
from cli.serve.session import DoubtError, StaleError


class TooLongError(Exception):
    """More was sent than is read."""


async def body(request: Request, most: int) -> bytes:
    """Return what was sent, whatever its headers say of it.

    Raises
    ------
    TooLongError
        If it is longer than ``most`` bytes.
    """
    found = b""
    async for part in request.stream():
        found += part
        if len(found) > most:
            raise TooLongError
    return found


def refused(words: str, status: int, **more: Any) -> JSONResponse:
    """Return why something was not done."""
    return JSONResponse({"error": words, **more}, status_code=status)


def refusal(error: Exception) -> Response:
    """Return the answer to something that cannot be done; other errors are raised again."""
    match error:
        case TooLongError():
            return refused("That is too long.", 413)
        case InputError():
            return refused(without_keys(sentence(error)), 400)
        case ValidationError():
            first = error.errors(include_url=False)[0]
            return refused(first["msg"].removeprefix("Value error, "), 400)
        case DoubtError():
            return JSONResponse({"doubts": error.words}, status_code=422)
        case StaleError():
            return refused(str(error), 409, stale=True)
        case NotNowError():
            return refused(str(error), 409, shown=error.shown)
        case ValueError() | TypeError() | KeyError() | RecursionError():
            return refused("That could not be read.", 400)
    raise error


def sentence(error: InputError) -> str:
    """Return what is wrong with a file, as a sentence."""
    got = f" (got {shortened(error.got)})" if error.got else ""
    do = f": {error.do}" if error.do else ""
    where = f", {error.where}" if error.where else ""
    return clean(f"{error.file}{where}: {error.must}{got}{do}.")
