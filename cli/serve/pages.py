"""The page itself and the files it loads; nothing comes from anywhere else."""

import secrets
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from starlette.responses import HTMLResponse, Response

from cli.render.clean_text import clean
from cli.report.templates import filled_template

PAGES = "cli.serve"
#: The one inline script is the table that says where libraries are; it has the nonce.
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self' 'nonce-{nonce}'; connect-src 'self'; "
    "font-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
TYPES = {
    ".css": "text/css",
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".woff2": "font/woff2",
}
SAFE = {"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"}


def page(name: str, token: str) -> Response:
    """Return the page."""
    nonce = secrets.token_urlsafe(12)
    told = {"name": clean(name), "token": token, "nonce": nonce, "styles": _styles()}
    text = filled_template(PAGES, "serve.html.j2", told)
    headers = {"Content-Security-Policy": POLICY.format(nonce=nonce), "Cache-Control": "no-store"}
    return HTMLResponse(text, headers=headers | SAFE)


def part(name: str) -> Response:
    """Return a file the page loads."""
    found = _parts().get(name)
    if found is None:
        return Response("There is no such file.", status_code=404, media_type="text/plain")
    kind = TYPES[name[name.rindex(".") :]]
    headers = {"Cache-Control": "no-cache"} | SAFE
    return Response(found.read_bytes(), media_type=kind, headers=headers)


@cache
def _parts() -> dict[str, Traversable]:
    """Return the files that may be loaded, by their path below the page."""
    found: dict[str, Traversable] = {}
    waiting = [("", files(PAGES).joinpath("page"))]
    while waiting:
        above, folder = waiting.pop()
        for item in folder.iterdir():
            path = f"{above}{item.name}"
            if item.is_dir():
                waiting.append((f"{path}/", item))
            elif any(item.name.endswith(kind) for kind in TYPES):
                found[path] = item
    return found


def _styles() -> list[str]:
    return sorted(name for name in _parts() if name.endswith(".css"))
