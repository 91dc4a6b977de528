"""Plans of the week, shown and typed; and half a page for whoever sits beside the pupil on a day."""

from collections.abc import Mapping
from datetime import date

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk, today
from saythesum.desk.forms import Choice, Field, Form, day_in, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError
from saythesum.office.plans.cover_sheet import cover_sheet
from saythesum.office.plans.today import LONGEST_REASON, REASONS, for_today, not_done
from saythesum.office.plans.week import Day, WeekPlan, day_plan_said, text_of, week_from
from saythesum.office.plans.weeks import list_plans, plan_name, put_plan_away, save_plan, show_plan
from saythesum.office.pupils import known_code
from saythesum.wording.for_adults.days import day_said

pages = Blueprint("plans", __name__)
Answer = str | tuple[str, int] | Response

PLAN = Form(
    [
        Field("name", "Name of the plan", "Small letters, digits and hyphens, such as week-20.", is_required=True),
        Field(
            "text",
            "The plan",
            "A line for the pupils, then each day with what is done, in order: grids by their names, choice (the tool "
            "chooses), probe, find-out, or facts by their names. For all days, or for one: by (voice, keys), wording "
            "(brief, short, full), sums or minutes, after which it stops.",
            'title = "The week of the harbour"\npupils = ["rk-7"]\n\n[monday]\ndo = ["ferry"]\nsums = 12\n\n'
            '[thursday]\ndo = ["choice", "probe"]\n',
            kind="lines",
        ),
    ]
)
NOT_DONE = Form(
    [
        Field("reason", "Why", "", REASONS[0], [Choice(reason, reason) for reason in (*REASONS, "other")]),
        Field(
            "other", "Another reason", f"One line, at most {LONGEST_REASON} letters. No names, nothing about health."
        ),
    ]
)


@pages.get("/plans/")
def all() -> str:
    cards = list_plans(the_desk().places)
    return render_template("plans/all.html", plans=[(card, _days(card.week)) for card in cards])


@pages.get("/plans/typed")
def typed() -> str:
    """A new one, or `plan`, to be changed."""
    if name := request.args.get("plan"):
        card = show_plan(the_desk().places, name)
        form = with_given(PLAN, {"name": card.name, "text": text_of(card.week)})
        return render_template("plans/typed.html", form=form, is_change=True)
    return render_template("plans/typed.html", form=PLAN, is_change=False)


@pages.post("/plans/typed")
def save() -> Answer:
    desk, given = the_desk(), request.form
    is_change = given.get("over") == "yes"
    problems: dict[str, str] = {}
    week, wrong = week_from(given.get("text", "").replace("\r\n", "\n"))
    if wrong:
        problems["text"] = " ".join(wrong)
    try:
        name = plan_name(given.get("name", ""))
        if not problems:
            save_plan(desk.places, name, week, desk.now(), over=is_change)
    except CallerError as error:
        sentence = str(error).replace("\n", " ")
        problems["name" if sentence.startswith(("The plan's name", "There is a plan")) else "text"] = sentence
    if problems:
        page = render_template("plans/typed.html", form=with_given(PLAN, given, problems), is_change=is_change)
        return page, 422
    visitor().notices.append(f"The plan {name} is saved.")
    return redirect(url_for("plans.one", name=name), 303)


@pages.get("/plans/<name>/")
def one(name: str) -> str:
    card = show_plan(the_desk().places, name)
    pupils = [(code, todays(code)) for code in card.week.pupils]
    return render_template("plans/one.html", card=card, days=_days(card.week), pupils=pupils)


@pages.post("/plans/<name>/put-away")
def away(name: str) -> Response:
    desk = the_desk()
    put_plan_away(desk.places, name, desk.now())
    visitor().notices.append(f"The plan {plan_name(name)} is put away; nothing is lost.")
    return redirect(url_for("plans.all"), 303)


@pages.get("/pupils/<code>/today")
def for_one(code: str) -> str:
    """Of today, or of `on`, to be laid beside the laptop. Raises CallerError where nothing is planned."""
    day, problems = _day(request.args)
    return _today_page(known_code(the_desk().places, code), day, with_given(NOT_DONE, {}, problems))


@pages.post("/pupils/<code>/today")
def was_not_done(code: str) -> Answer:
    desk, given = the_desk(), request.form
    pupil = known_code(desk.places, code)
    day, _ = _day(given)
    reason = given.get("other", "").strip() or given.get("reason", "")
    try:
        not_done(desk.places, pupil, day, reason, desk.now())
    except CallerError as error:
        return _today_page(pupil, day, with_given(NOT_DONE, given, {"other": str(error)})), 422
    visitor().notices.append(f"Kept: offered to {pupil} on {day_said(day)}, and not done ({reason}).")
    return redirect(url_for("pupils.one", code=pupil), 303)


def todays(code: str) -> str:
    """What the plan has for the pupil today; "" where nothing is planned."""
    planned = for_today(the_desk().places, code, today())
    return planned.said if planned and planned.activities else ""


def _today_page(pupil: str, day: date, form: Form) -> str:
    lines = cover_sheet(the_desk().places, pupil, day)
    return render_template("plans/today.html", code=pupil, on=day, is_today=day == today(), lines=lines, form=form)


def _day(given: Mapping[str, str]) -> tuple[date, Mapping[str, str]]:
    """Today, where none is named or it cannot be."""
    problems: dict[str, str] = {}
    return day_in(given, "on", problems) or today(), problems


def _days(week: WeekPlan) -> list[tuple[str, str]]:
    return [(day.value.capitalize(), day_plan_said(week.days[day], week.ways)) for day in Day if day in week.days]
