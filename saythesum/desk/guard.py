"""Before every page: is it really our own user's browser that asks, and from our own page? After it: what it may do."""

import hmac

from flask import Flask, Response, abort, g, request

from saythesum.desk.desk import the_desk
from saythesum.desk.door import Visitor

COOKIE = "saythesum-desk"
TOKEN = "token"  # noqa: S105 - the name of a field
OPEN_TO_ALL = ("door.enter", "static")
"""Coming in, and what is the same for everybody."""
MOST_BYTES_AT = {"records.look": 500_000_000}
"""Of a request, where more is meant than a form: a year of a school of 300 pupils, given out, is half of it."""
CONTENT_POLICY = (
    "default-src 'none'; style-src 'self'; img-src 'self'; media-src 'self'; form-action 'self'; "
    "base-uri 'none'; frame-ancestors 'none'"
)
"""Nothing from elsewhere, no script at all, no frame around us. Source: W3C, Content Security Policy Level 3."""
HEADERS = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    # Not "no-referrer": with that, browsers send no Origin either, which is looked at below.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


def guard(app: Flask) -> None:
    app.before_request(_check)
    app.after_request(_restricted)


def visitor() -> Visitor:
    """Of the request that is being answered."""
    known: Visitor = g.visitor
    return known


def _check() -> None:
    """Aborts with 403 where the page is not for whoever asks."""
    desk = the_desk()
    if request.endpoint in MOST_BYTES_AT:
        request.max_content_length = MOST_BYTES_AT[request.endpoint]
    if f"http://{request.host}" != desk.address:
        abort(403, f"The desk answers at {desk.address} only, and was asked for as {request.host[:80]}.")
    if request.endpoint in OPEN_TO_ALL:
        return
    known = desk.visitors.known(request.cookies.get(COOKIE, ""))
    if known is None:
        abort(403, "This browser has not been let in: open the desk from its icon, or type saythesum desk.")
    g.visitor = known
    if request.method not in ("GET", "HEAD"):
        _check_form(known)
    desk.used_at = desk.now()


def _check_form(known: Visitor) -> None:
    """Source: OWASP, Cross-Site Request Forgery Prevention Cheat Sheet: a token, and the Origin beside it."""
    came_from = request.headers.get("Origin")
    is_own = came_from in (None, the_desk().address)
    given = request.form.get(TOKEN, "")
    if not (is_own and hmac.compare_digest(given.encode(), known.token.encode())):
        abort(403, "This form does not come from a page of the desk, and nothing was changed.")


def _restricted(response: Response) -> Response:
    response.headers.update(HEADERS)
    response.headers.pop("Server", None)
    return response
