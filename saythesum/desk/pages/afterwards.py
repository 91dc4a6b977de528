"""The two minutes after a practice: each answer that the tool was not sure of, by one press; the pupil's own words;
the day in one line; and why something was not done.
"""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from uuid import UUID

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk, today
from saythesum.desk.forms import Field, Form, day_in, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError
from saythesum.office.afterwards import (
    Doubtful,
    Judgement,
    doubtful,
    judge,
    own_words,
    today_of,
    today_said,
    words_kept,
)
from saythesum.office.correcting import LONGEST_NOTE, practices
from saythesum.office.plans.today import LONGEST_REASON, REASONS, for_today, not_done
from saythesum.office.pupils import known_code
from saythesum.office.upkeep.beside import PractisingNowError
from saythesum.wording.for_adults.said_marks import notes_said
from saythesum.wording.for_adults.support_words import part_said

pages = Blueprint("afterwards", __name__, url_prefix="/pupils/<code>/afterwards")
Answer = str | tuple[str, int] | Response

JUDGEMENTS: Mapping[str, tuple[Judgement, str]] = {
    "said-so": (Judgement.SAID_SO, "Said so"),
    "not-said": (Judgement.NOT_SAID, "Not said"),
    "with-help": (Judgement.WITH_HELP, "With my help"),
    "was-right": (Judgement.WAS_RIGHT, "The right answer was said"),
}
FORM = Form(
    [
        Field(
            "words",
            "What the pupil says of it",
            f"One line, at most {LONGEST_NOTE} letters, as it was said. No names, nothing about health.",
        ),
        Field("other", "Another reason", f"One line, at most {LONGEST_REASON} letters. No names."),
    ]
)


@pages.get("/")
def all(code: str) -> Answer:
    pupil, day = _whose(code, request.args)
    return _page(pupil, day)


@pages.post("/answer")
def judged(code: str) -> Answer:
    pupil, day = _whose(code, request.form)
    judgement, words = JUDGEMENTS.get(request.form.get("judgement", ""), (None, ""))
    if judgement is None:
        abort(400)
    try:
        beside = judge(the_desk().places, pupil, request.form.get("answer", ""), judgement, the_desk().now())
    except (CallerError, PractisingNowError) as error:
        return _page(pupil, day, {"": str(error)}), 422
    visitor().notices.append(f"Kept: {words.lower()}.")
    if others := notes_said(beside):
        visitor().notices.append(f"Noted of the same answer before: {', '.join(others)}.")
    return _back(pupil, day)


@pages.post("/words")
def said(code: str) -> Answer:
    pupil, day = _whose(code, request.form)
    practice = _last_practice(pupil, day)
    try:
        if practice is None:
            raise CallerError("Nothing was answered that day: there is nothing to keep the words with.")
        own_words(the_desk().places, practice, request.form.get("words", ""), the_desk().now())
    except (CallerError, PractisingNowError) as error:
        return _page(pupil, day, {"words": str(error)}), 422
    visitor().notices.append("The pupil's words are kept.")
    return _back(pupil, day)


@pages.post("/not-done")
def was_not_done(code: str) -> Answer:
    pupil, day = _whose(code, request.form)
    given = request.form
    reason = given.get("reason") or given.get("other", "")
    try:
        not_done(the_desk().places, pupil, day, reason, the_desk().now())
    except CallerError as error:
        return _page(pupil, day, {"other": str(error)}), 422
    visitor().notices.append(f"Kept: offered, and not done ({reason.strip()}).")
    return _back(pupil, day)


def _whose(code: str, given: Mapping[str, str]) -> tuple[str, date]:
    """The pupil, and the day: today unless another is named. Raises CallerError."""
    problems: dict[str, str] = {}
    day = day_in(given, "on", problems)
    for sentence in problems.values():
        raise CallerError(sentence)
    return known_code(the_desk().places, code), day or today()


def _back(pupil: str, day: date) -> Response:
    return redirect(url_for("afterwards.all", code=pupil, on=day.isoformat()), 303)


def _page(pupil: str, day: date, problems: Mapping[str, str] = {}) -> str:
    places = the_desk().places
    found = doubtful(places, pupil, day)
    practice = _last_practice(pupil, day)
    planned = for_today(places, pupil, day)
    kept = {"words": words_kept(places, practice) if practice else ""}
    return render_template(
        "afterwards/afterwards.html",
        code=pupil,
        on=day,
        line=today_said(today_of(places, pupil, day)),
        doubts=[_doubt(one) for one in found if not one.judged],
        looked_at=[_doubt(one) for one in found if one.judged],
        practised=practice is not None,
        other_day=_last_day(pupil),
        planned=planned.said if planned and planned.activities else "",
        reasons=REASONS,
        form=with_given(FORM, {**kept, **(request.form if problems else {})}, problems),
    )


def _doubt(one: Doubtful) -> Mapping[str, object]:
    row = one.answer
    return {
        "id": row.id,
        "practice": one.practice,
        "sum": row.asked.shown,
        "part": part_said(row.part),
        "given": row.given,
        "is_right": row.right,
        "right_answer": row.right_answer,
        "near": [number for number in row.close_to if number != row.given],
        "judgements": {
            value: words
            for value, (does, words) in JUDGEMENTS.items()
            if not (row.right and does is Judgement.WAS_RIGHT)
        },
    }


def _last_practice(pupil: str, day: date) -> UUID | None:
    """Of that day, in which something was answered."""
    return next((id for began, id in _answered(pupil) if began == day), None)


def _last_day(pupil: str) -> date | None:
    """On which something was answered."""
    return next((began for began, _ in _answered(pupil)), None)


def _answered(pupil: str) -> Iterator[tuple[date, UUID]]:
    """Practices with their days, by the clock of this machine; the newest first."""
    places = the_desk().places
    if places.records_file.exists():
        for one in reversed(practices(places, pupil)):
            if one.answers:
                yield datetime.fromisoformat(one.began_at).astimezone().date(), one.id
