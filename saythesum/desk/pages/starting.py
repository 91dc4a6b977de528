"""Starting a practice: one press, and the pupil's window opens."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.guard import visitor
from saythesum.office.grids import open_grid
from saythesum.office.pupils import known_code

pages = Blueprint("starting", __name__)


@pages.post("/pupils/<code>/start")
def start(code: str) -> Response | tuple[str, int]:
    """`what`: "go-on", "probe", "find-out", or "grid-" and a grid's name."""
    desk = the_desk()
    pupil = known_code(desk.places, code)
    trouble = desk.begins.begin(["--pupil", pupil, *_words(request.form.get("what", "go-on"))])
    if trouble:
        return render_template("starting/not_started.html", code=pupil, trouble=trouble), 409
    visitor().notices.append(f"The practice of {pupil} has begun, in a window of its own. The desk may be left.")
    return redirect(url_for("pupils.one", code=pupil), 303)


def _words(what: str) -> list[str]:
    """Raises GridError for a grid that is not there."""
    match what.partition("-"):
        case ("probe", _, _):
            return ["--probe"]
        case ("find", _, "out"):
            return ["--find-out"]
        case ("grid", _, name):
            _ = open_grid(the_desk().places, name)
            return ["--grid", name.strip().lower()]
        case _:
            return []
