"""Pupils: all of them, a new one, and one."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Field, Form, with_given
from saythesum.desk.guard import visitor
from saythesum.desk.pages.plans import todays
from saythesum.errors import CallerError
from saythesum.office.grids import list_grids
from saythesum.office.pupils import add_pupil, changes, list_pupils, put_away, show_pupil
from saythesum.store.pupils import hint_of_a_name

pages = Blueprint("pupils", __name__, url_prefix="/pupils")

NEW = Form(
    [
        Field(
            "code",
            "Code or nickname",
            "Letters a to z, digits and hyphens, at most 20, such as rk-7. No real name: what is kept then names no "
            "child, and a lost laptop tells nobody whose answers these are. Keep the list of names where the school "
            "keeps such lists.",
            is_required=True,
            is_first=True,
        )
    ]
)


@pages.get("/")
def all() -> str:
    return render_template("pupils/all.html", pupils=list_pupils(the_desk().places, put_away=True))


@pages.get("/new")
def new() -> str:
    return render_template("pupils/new.html", form=NEW)


@pages.post("/new")
def add() -> Response | tuple[str, int]:
    desk, code = the_desk(), request.form.get("code", "")
    try:
        card = add_pupil(desk.places, code, desk.now())
    except CallerError as error:
        return render_template("pupils/new.html", form=with_given(NEW, request.form, {"code": str(error)})), 422
    visitor().notices.append(" ".join(filter(None, [f"The pupil {card.code} is added.", hint_of_a_name(code)])))
    return redirect(url_for("pupils.one", code=card.code), 303)


@pages.get("/<code>/")
def one(code: str) -> str:
    places = the_desk().places
    card = show_pupil(places, code)
    grids = [grid for grid in list_grids(places) if grid.grid]
    return render_template(
        "pupils/one.html",
        pupil=card,
        grids=grids,
        planned=todays(card.code),
        chosen=request.args.get("grid", ""),
        changes=changes(places, card.code)[::-1],
    )


@pages.post("/<code>/put-away")
def away(code: str) -> Response:
    desk = the_desk()
    is_back = "back" in request.form
    card = put_away(desk.places, code, desk.now(), back=is_back)
    visitor().notices.append(
        f"{card.code} is in the list again." if is_back else f"{card.code} is put away; nothing is lost."
    )
    return redirect(url_for("pupils.all"), 303)
