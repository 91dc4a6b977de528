"""The first page: the day in five lines, the pupils, and what to be reminded of."""

from flask import Blueprint, render_template

from saythesum.desk.desk import the_desk
from saythesum.office.keeping import due, kept_elsewhere
from saythesum.office.pupils import changes_of_all, list_pupils

pages = Blueprint("first", __name__)

MOST_CHANGES = 20
"""Shown at once; a pupil's page has all."""


@pages.get("/")
def first() -> str:
    desk = the_desk()
    return render_template(
        "first.html",
        pupils=list_pupils(desk.places),
        due=due(desk.places, desk.now().date()),
        last_visit=desk.last_visit,
        changes=changes_of_all(desk.places, desk.last_visit)[::-1] if desk.last_visit else (),
        most=MOST_CHANGES,
        elsewhere=kept_elsewhere(desk.places.data),
    )
