"""The pages as one application: each group of pages is a module in `pages/`, listed here."""

from collections.abc import Sequence
from typing import Any

from flask import Blueprint, Flask, Response, g, make_response, render_template
from jinja2 import StrictUndefined
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge

from saythesum.desk.desk import Desk
from saythesum.desk.guard import TOKEN, guard, visitor
from saythesum.desk.pages import (
    afterwards,
    corrections,
    door,
    first,
    grids,
    help,
    own_words,
    plan_form,
    plans,
    pupils,
    records,
    settings,
    starting,
    targets,
    wishes,
)
from saythesum.desk.pages.papers import reports, sheets
from saythesum.desk.settings_form import in_words
from saythesum.desk.words import day, day_and_time
from saythesum.errors import SayTheSumError

GROUPS: Sequence[Blueprint] = (
    door.pages,
    first.pages,
    pupils.pages,
    settings.pages,
    own_words.pages,
    targets.pages,
    wishes.pages,
    grids.pages,
    sheets.pages,
    plan_form.pages,
    plans.pages,
    reports.pages,
    records.pages,
    corrections.pages,
    afterwards.pages,
    starting.pages,
    help.pages,
)
MOST_BYTES = 1_000_000
"""Of a form. A page that takes larger files says so itself."""
TOO_LARGE = "That file is larger than anything that saythesum gives out, and nothing of it was taken in."


def made_app(desk: Desk) -> Flask:
    app = Flask(__name__)
    app.extensions["desk"] = desk
    app.config["MAX_CONTENT_LENGTH"] = MOST_BYTES
    app.jinja_env.undefined = StrictUndefined
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.jinja_env.filters.update(day=day, day_and_time=day_and_time, in_words=in_words)
    guard(app)
    for pages in GROUPS:
        app.register_blueprint(pages)
    app.context_processor(_for_every_page)
    app.register_error_handler(SayTheSumError, _own_error)
    app.register_error_handler(HTTPException, _refused)
    app.register_error_handler(Exception, _fault)
    return app


def _for_every_page() -> dict[str, Any]:
    return {"token_name": TOKEN, "token": lambda: visitor().token, "notices": _notices}


def _notices() -> list[str]:
    """Those that wait, once."""
    waiting = visitor().notices
    said, waiting[:] = list(waiting), []
    return said


def _own_error(error: SayTheSumError) -> Response:
    return _problem("That could not be done", str(error), 409)


def _refused(error: HTTPException) -> Response:
    code = error.code or 500
    if isinstance(error, RequestEntityTooLarge):
        return _problem("That file is too large", TOO_LARGE, code)
    match code:
        case 403:
            return _problem("This page was refused", error.description or "", code)
        case 404:
            return _problem("There is no such page", "Go to the first page, and choose from there.", code)
        case _:
            return _problem("That was not understood", "Go back, and try once more.", code)


def _fault(fault: Exception) -> Response:
    what = " ".join(f"{type(fault).__name__} {fault}".split())
    return _problem(
        "The desk has a fault", f"This page broke off by a fault of its own ({what}). Nothing is lost.", 500
    )


def _problem(heading: str, sentence: str, code: int) -> Response:
    """For somebody who was let in, with the ways to other pages."""
    is_inside = "visitor" in g and code != 403
    page = render_template("problem.html", heading=heading, sentences=sentence.split("\n"), is_inside=is_inside)
    return make_response(page, code)
