"""What was practised, put right afterwards with a trace: an answer corrected, a practice moved to whose it is."""

from collections.abc import Mapping
from datetime import datetime
from itertools import pairwise
from uuid import UUID

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError
from saythesum.office.correcting import (
    AnswerCard,
    PracticeCard,
    add_note,
    answers,
    does_not_count,
    practices,
    take_back,
    was_helped,
)
from saythesum.office.moving import move
from saythesum.office.pupils import codes, known_code
from saythesum.office.upkeep.beside import PractisingNowError
from saythesum.store.reading import kept_grid
from saythesum.wording.for_adults.said_marks import notes_said
from saythesum.wording.for_adults.support_words import SUPPORT_WORDS, by_said, part_said

pages = Blueprint("corrections", __name__, url_prefix="/pupils/<code>/practices")
Answer = str | tuple[str, int] | Response

CORRECTION = Form(
    [
        Field(
            "what",
            "What is to be put right",
            "A row is added that says so; the answer itself is kept as it was.",
            "take-back",
            [
                Choice("take-back", "It was not said, or not by this pupil: take it back"),
                Choice("helped", "It was given with an adult's help"),
                Choice("not-counted", "It stays, but is no evidence"),
                Choice("note", "Only a note beside it"),
            ],
        ),
        Field("note", "Note", "One line, where one is wanted. No names, nothing about health."),
    ]
)


@pages.get("/")
def all(code: str) -> str:
    pupil = known_code(the_desk().places, code)
    cards = practices(the_desk().places, pupil)[::-1]
    return render_template("corrections/all.html", code=pupil, practices=[_practice(card) for card in cards])


@pages.get("/<uuid:practice>/")
def one(code: str, practice: UUID) -> str:
    pupil, card = _found(code, practice)
    return _one_page(pupil, card, _move_form(pupil, practice))


@pages.post("/<uuid:practice>/")
def moved(code: str, practice: UUID) -> Answer:
    pupil, card = _found(code, practice)
    desk, given = the_desk(), request.form
    first, last = (int(given[name]) if given.get(name, "").isdecimal() else None for name in ("first", "last"))
    try:
        if last is not None and last < (first or 0):
            raise CallerError("The last answer comes before the first: choose one that comes after it.")
        came = move(desk.places, practice, given.get("to", ""), desk.now(), first=first or 0, last=last)
    except CallerError as error:
        return _one_page(pupil, card, with_given(_move_form(pupil, practice), given, {"": str(error)})), 422
    visitor().notices.append(
        f"{came.rows} rows of {', '.join(came.before)} are of {came.pupil} now. Move them back to undo it."
    )
    return redirect(url_for("corrections.all", code=came.pupil), 303)


@pages.get("/<uuid:practice>/<uuid:answer>")
def correct(code: str, practice: UUID, answer: UUID) -> str:
    return _correct_page(code, practice, answer, CORRECTION)


@pages.post("/<uuid:practice>/<uuid:answer>")
def corrected(code: str, practice: UUID, answer: UUID) -> Answer:
    desk, given = the_desk(), request.form
    try:
        match given.get("what"):
            case "take-back":
                take_back(desk.places, str(answer), desk.now())
            case "helped":
                was_helped(desk.places, str(answer), desk.now())
            case "not-counted":
                does_not_count(desk.places, str(answer), desk.now())
        if given.get("what") == "note" or given.get("note", "").strip():
            add_note(desk.places, str(answer), given.get("note", ""), desk.now())
    except (CallerError, PractisingNowError) as error:
        name = "note" if str(error).startswith("The note") else ""
        return _correct_page(code, practice, answer, with_given(CORRECTION, given, {name: str(error)})), 422
    visitor().notices.append("Kept beside the answer, which itself is unchanged.")
    return redirect(url_for("corrections.one", code=code, practice=practice), 303)


def _found(code: str, practice: UUID) -> tuple[str, PracticeCard]:
    pupil = known_code(the_desk().places, code)
    for card in practices(the_desk().places, pupil):
        if card.id == practice:
            return pupil, card
    abort(404)


def _one_page(pupil: str, card: PracticeCard, form: Form) -> str:
    shown = [_answer(one) for one in answers(the_desk().places, card.id)]
    return render_template("corrections/one.html", code=pupil, practice=_practice(card), answers=shown, form=form)


def _correct_page(code: str, practice: UUID, answer: UUID, form: Form) -> str:
    pupil, card = _found(code, practice)
    found = next((one for one in answers(the_desk().places, practice) if one.answer.id == str(answer)), None)
    if found is None:
        abort(404)
    return render_template(
        "corrections/correct.html", code=pupil, practice=_practice(card), answer=_answer(found), form=form
    )


def _move_form(pupil: str, practice: UUID) -> Form:
    places = the_desk().places
    others = [one for one in codes(places) if one != pupil]
    given = [(one.serial, f"{one.answer.asked.shown}: {one.answer.given}") for one in answers(places, practice)]
    ends = [Choice(str(serial), words) for serial, words in given]
    # An answer's question comes before it, and goes with it.
    begins = [Choice(str(before + 1), words) for (before, _), (_, words) in pairwise(given)]
    return Form(
        [
            Field("to", "To which pupil", "", others[0] if others else "", [Choice(one, one) for one in others]),
            Field("first", "From which answer on", "", "", [Choice("", "All of it"), *begins]),
            Field("last", "Up to which answer", "", "", [Choice("", "To the end"), *ends]),
        ]
    )


def _practice(card: PracticeCard) -> Mapping[str, object]:
    is_later = datetime.fromisoformat(card.began_at) > the_desk().now()
    titles = ", ".join(kept_grid(text).title for text in card.grids)
    return {"id": card.id, "began_at": card.began_at, "titles": titles, "answers": card.answers, "is_later": is_later}


def _answer(card: AnswerCard) -> Mapping[str, object]:
    row = card.answer
    return {
        "id": row.id,
        "at": card.at,
        "sum": row.asked.shown,
        "part": part_said(row.part),
        "given": row.given,
        "is_right": row.right,
        "support": SUPPORT_WORDS[row.support],
        "by": by_said(row.by),
        "is_taken_back": card.is_taken_back,
        "notes": notes_said(card.notes),
    }
