"""Plans of the week, shown and typed; and half a page for whoever sits beside the pupil on a day."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk, today
from saythesum.desk.forms import Field, Form, day_in, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError
from saythesum.office.plans.cover_sheet import CoverSheet, cover_sheet
from saythesum.office.plans.today import for_today
from saythesum.office.plans.week import Day, WeekPlan, day_plan_said, text_of, week_from
from saythesum.office.plans.weeks import list_plans, plan_name, put_plan_away, save_plan, show_plan
from saythesum.publishing.reports.cover import cover_as, lines_html

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
    sheet = _cover_sheet(code)
    return render_template("plans/today.html", sheet=sheet, is_today=sheet.day == today(), lines=lines_html(sheet))


@pages.get("/pupils/<code>/today/pdf")
def as_pdf(code: str) -> Response:
    """Raises CallerError where a PDF cannot be made."""
    sheet = _cover_sheet(code)
    response = Response(cover_as(".pdf", sheet), mimetype="application/pdf")
    response.headers["Content-Disposition"] = f'attachment; filename="{sheet.code}-{sheet.day}.pdf"'
    return response


def todays(code: str) -> str:
    """What the plan has for the pupil today; "" where nothing is planned."""
    planned = for_today(the_desk().places, code, today())
    return planned.said if planned and planned.activities else ""


def _cover_sheet(code: str) -> CoverSheet:
    """Of today, or of `on`. Raises CallerError."""
    problems: dict[str, str] = {}
    day = day_in(request.args, "on", problems)
    for sentence in problems.values():
        raise CallerError(sentence)
    return cover_sheet(the_desk().places, code, day or today())


def _days(week: WeekPlan) -> list[tuple[str, str]]:
    return [(day.value.capitalize(), day_plan_said(week.days[day], week.ways)) for day in Day if day in week.days]
