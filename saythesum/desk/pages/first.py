"""The first page: the day in five lines, the pupils, and what to be reminded of."""

from flask import Blueprint, render_template

from saythesum.desk.desk import the_desk
from saythesum.office.keeping import due, kept_elsewhere
from saythesum.office.pupils import list_pupils

pages = Blueprint("first", __name__)


@pages.get("/")
def first() -> str:
    desk = the_desk()
    return render_template(
        "first.html",
        pupils=list_pupils(desk.places),
        due=due(desk.places, desk.now().date()),
        elsewhere=kept_elsewhere(desk.places.data),
    )
