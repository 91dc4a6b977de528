"""A plan of the week by choosing: pupils by ticks, two things a day, and how. What a form cannot show is typed."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, get_args

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, day_in, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError
from saythesum.office.grids import list_grids
from saythesum.office.plans.week import DOINGS, LONGEST_TEXT, Day, DayPlan, Ways, WeekPlan, activities_said
from saythesum.office.plans.weeks import list_plans, plan_name, save_plan, show_plan
from saythesum.office.pupils import list_pupils
from saythesum.settings import Length, Way

pages = Blueprint("plan_form", __name__, url_prefix="/plans/form")
Answer = str | tuple[str, int] | Response

DAYS = tuple(Day)[:5]
PLACES = ("first", "then")
"""Of a day's activities."""
_LEFT_OPEN = Choice("", "As in the pupil's settings")
HOW: Sequence[Field] = (
    Field("by", "How to answer", choices=[_LEFT_OPEN, *(Choice(one, one.capitalize()) for one in get_args(Way))]),
    Field("wording", "Wording", choices=[_LEFT_OPEN, *(Choice(one, one.capitalize()) for one in get_args(Length))]),
    Field("sums", "Stop after so many sums", "Empty: as in the pupil's settings. The pupil may stop before."),
    Field("minutes", "Stop after so many minutes", "When the sum is done. Empty: as in the pupil's settings."),
    Field("from", "From", "Empty: from now on.", kind="date"),
    Field("until", "Until", "Empty: every week.", kind="date"),
    Field("note", "For whoever sits beside the pupil", f"One line, at most {LONGEST_TEXT} letters. No names."),
)
NAMES: Sequence[Field] = (
    Field("name", "Name of the plan", "Small letters, digits and hyphens, such as week-20.", is_required=True),
    Field("title", "What the week is about", "One line; may be left empty."),
)


def fits(week: WeekPlan) -> bool:
    """Whether the form can show all of it."""
    return all(day in DAYS and len(plan.do) <= len(PLACES) and plan.ways == Ways() for day, plan in week.days.items())


@pages.get("")
def plan() -> Answer:
    """A new one, for the pupils of `for`; or `plan`, to be changed."""
    places = the_desk().places
    if not (name := request.args.get("plan")):
        proposed = {"name": _free_name()}
        return _form_page(with_given(_form(), proposed), request.args.getlist("for"), is_change=False)
    card = show_plan(places, name)
    if card.problems or not fits(card.week):
        return redirect(url_for("plans.typed", plan=card.name))
    form = with_given(_form(), {"name": card.name, **_given_of(card.week)})
    return _form_page(form, card.week.pupils, is_change=True)


@pages.post("")
def save() -> Answer:
    desk, given = the_desk(), request.form
    is_change = given.get("over") == "yes"
    problems: dict[str, str] = {}
    week = _week(given, problems)
    name = ""
    try:
        name = plan_name(given.get("name", ""))
        if not problems:
            save_plan(desk.places, name, week, desk.now(), over=is_change)
    except CallerError as error:
        sentence = str(error)
        problems["name" if sentence.startswith(("The plan's name", "There is a plan")) else ""] = sentence
    if problems:
        form = with_given(_form(), given, problems)
        return _form_page(form, given.getlist("for"), is_change=is_change), 422
    visitor().notices.append(f"The plan {name} is saved.")
    return redirect(url_for("plans.one", name=name), 303)


def _form() -> Form:
    grids = [
        Choice(card.name, f"{card.grid.title} ({card.name})") for card in list_grids(the_desk().places) if card.grid
    ]
    others = [Choice(name, activities_said([name]).capitalize()) for name in DOINGS]
    does = [Choice("", "Nothing"), *others, *grids]
    days = (
        Field(f"{day}-{place}", f"{day.capitalize()}{', then' * (place == 'then')}", choices=does)
        for day in DAYS
        for place in PLACES
    )
    return Form([*NAMES, *days, *HOW])


def _week(given: MultiDict[str, str], problems: dict[str, str]) -> WeekPlan:
    days = {day: DayPlan(do) for day in DAYS if (do := tuple(_does(given, day)))}
    if not given.getlist("for"):
        problems[""] = "Tick at least one pupil."
    elif not days:
        problems[f"{DAYS[0]}-{PLACES[0]}"] = "Choose what is done on at least one day."
    ways = Ways(
        by=_one_of(given, "by", get_args(Way)),
        wording=_one_of(given, "wording", get_args(Length)),
        sums=_whole(given, "sums", problems),
        minutes=_whole(given, "minutes", problems),
    )
    return WeekPlan(
        pupils=tuple(dict.fromkeys(given.getlist("for"))),
        days=days,
        title=given.get("title", "").strip(),
        note=given.get("note", "").strip(),
        ways=ways,
        first=day_in(given, "from", problems),
        last=day_in(given, "until", problems),
    )


def _does(given: Mapping[str, str], day: Day) -> Iterator[str]:
    for place in PLACES:
        if does := given.get(f"{day}-{place}", ""):
            yield does


def _given_of(week: WeekPlan) -> Mapping[str, str]:
    """As the form has it."""
    does = {f"{day}-{place}": do for day, plan in week.days.items() for place, do in zip(PLACES, plan.do, strict=False)}
    ways = week.ways
    how = {"by": ways.by, "wording": ways.wording, "sums": ways.sums, "minutes": ways.minutes}
    others = {"title": week.title, "note": week.note, "from": week.first, "until": week.last}
    return does | {name: str(value) for name, value in (how | others).items() if value}


def _form_page(form: Form, chosen: Sequence[str], *, is_change: bool) -> str:
    known = [card.code for card in list_pupils(the_desk().places)]
    return render_template(
        "plans/form.html",
        form=form,
        pupils=[*known, *(code for code in chosen if code not in known)],
        chosen=chosen,
        days=[(day, [form.by_name[f"{day}-{place}"] for place in PLACES]) for day in DAYS],
        how=[form.by_name[one.name] for one in HOW],
        is_change=is_change,
    )


def _free_name() -> str:
    taken = {card.name for card in list_plans(the_desk().places)}
    return next(name for number in range(1, len(taken) + 2) if (name := f"week-{number}") not in taken)


def _one_of(given: Mapping[str, str], name: str, known: Sequence[Any]) -> Any:
    return next((one for one in known if one == given.get(name)), None)


def _whole(given: Mapping[str, str], name: str, problems: dict[str, str]) -> int | None:
    text = given.get(name, "").strip()
    if not text:
        return None
    if text.isascii() and text.isdigit() and len(text) <= 4:
        return int(text)
    problems[name] = f"“{text[:20]}” is no number; right would be for example 12."
    return None
