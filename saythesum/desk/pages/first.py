"""The first page: the day in five lines, the pupils, and what to be reminded of."""

from flask import Blueprint, render_template

from saythesum.desk.desk import the_desk, today
from saythesum.desk.pages.plans import todays
from saythesum.office.keeping import due, kept_elsewhere_said
from saythesum.office.pupils import changes_of_all, list_pupils

pages = Blueprint("first", __name__)

MOST_CHANGES = 20
"""Shown at once; a pupil's page has all."""


@pages.get("/")
def first() -> str:
    desk = the_desk()
    pupils = list_pupils(desk.places)
    return render_template(
        "first.html",
        pupils=[(card, todays(card.code)) for card in pupils],
        on=today(),
        due=due(desk.places, today()),
        last_visit=desk.last_visit,
        changes=changes_of_all(desk.places, desk.last_visit)[::-1] if desk.last_visit else (),
        most=MOST_CHANGES,
        elsewhere=kept_elsewhere_said(desk.places.data),
    )
