"""What a pupil is to reach, in one sentence with its measurable part; and how long the records are to be kept."""

from collections.abc import Mapping

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, day_in, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError
from saythesum.office.keeping import keep_until, kept_until
from saythesum.office.pupils import Target, set_target, show_pupil, targets

pages = Blueprint("targets", __name__, url_prefix="/pupils/<code>")
Answer = str | tuple[str, int] | Response

TARGET = Form(
    [
        Field("sentence", "The target, in one sentence", "As you would say it at a meeting.", is_required=True),
        Field("sums", "Which sums", "A grid's name, or words such as: crossing a ten.", "crossing a ten"),
        Field("right", "How many right", "Of those in the next field.", "8"),
        Field("of", "Of how many", "", "10"),
        Field(
            "unaided", "Unaided", "", "yes", [Choice("yes", "Yes, without help"), Choice("no", "With help as needed")]
        ),
        Field("by", "By when", "A day.", kind="date", is_required=True),
    ]
)
UNTIL = Form(
    [
        Field(
            "until",
            "Keep the records until",
            "The school's policy says how long. You are reminded a month before; nothing is erased by itself. Empty: "
            "no day.",
            kind="date",
        )
    ]
)


@pages.get("/target")
def target(code: str) -> str:
    return _target_page(code, TARGET)


@pages.post("/target")
def set_(code: str) -> Answer:
    desk, given = the_desk(), request.form
    problems: dict[str, str] = {}
    right, of = (_whole(given, name, problems) for name in ("right", "of"))
    by = day_in(given, "by", problems)
    if not given.get("sentence", "").strip():
        problems["sentence"] = "Write the target as one sentence."
    if by is None and "by" not in problems:
        problems["by"] = "Choose the day by which it is to be reached."
    if not problems and by:
        wanted = Target(
            given["sentence"].strip(), given.get("sums", "").strip(), right, of, given.get("unaided") != "no", by
        )
        try:
            set_target(desk.places, code, wanted, desk.now())
        except CallerError as error:
            problems[""] = str(error)
    if problems:
        return _target_page(code, with_given(TARGET, given, problems)), 422
    visitor().notices.append(f"The target of {code} is kept.")
    return redirect(url_for("pupils.one", code=code), 303)


@pages.get("/keep")
def keep(code: str) -> str:
    return _keep_page(code, {})


@pages.post("/keep")
def set_keep(code: str) -> Answer:
    desk, problems = the_desk(), dict[str, str]()
    until = day_in(request.form, "until", problems)
    if not problems:
        try:
            keep_until(desk.places, code, until, desk.now())
        except CallerError as error:
            problems["until"] = str(error)
    if problems:
        return _keep_page(code, problems, request.form), 422
    visitor().notices.append(f"The day for the records of {code} is kept." if until else f"{code} has no such day now.")
    return redirect(url_for("pupils.one", code=code), 303)


def _target_page(code: str, form: Form) -> str:
    places = the_desk().places
    card = show_pupil(places, code)
    return render_template("targets/target.html", pupil=card, form=form, targets=targets(places, card.code)[::-1])


def _keep_page(code: str, problems: Mapping[str, str], given: Mapping[str, str] | None = None) -> str:
    places = the_desk().places
    card = show_pupil(places, code)
    until = kept_until(places, card.code)
    form = with_given(UNTIL, given if given is not None else {"until": until.isoformat() if until else ""}, problems)
    return render_template("targets/keep.html", pupil=card, form=form)


def _whole(given: Mapping[str, str], name: str, problems: dict[str, str]) -> int:
    text = given.get(name, "").strip()
    if text.isascii() and text.isdigit() and len(text) <= 4:
        return int(text)
    problems[name] = f"{TARGET.by_name[name].label}: a whole number, such as 8."
    return 0
