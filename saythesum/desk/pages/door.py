"""Coming in and leaving."""

from flask import Blueprint, Response, abort, make_response, render_template, request

from saythesum.desk.desk import the_desk
from saythesum.desk.door import admit
from saythesum.desk.guard import COOKIE

pages = Blueprint("door", __name__)


@pages.post("/enter")
def enter() -> Response:
    """A page that leads on by itself: a cookie for this site only is not sent along a way that began elsewhere."""
    desk = the_desk()
    if not admit(desk.doors, request.form.get("secret", "")):
        abort(403, "This way in was used already, or is an old one: open the desk from its icon once more.")
    response = make_response(render_template("door/enter.html"))
    response.set_cookie(COOKIE, desk.visitors.enter(), httponly=True, samesite="Strict")
    return response


@pages.post("/leave")
def leave() -> str:
    the_desk().is_left = True
    return render_template("door/left.html")
