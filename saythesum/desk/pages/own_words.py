"""A pupil's own words: consent noted or withdrawn, and what is kept erased by one press."""

from collections.abc import Mapping

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, day_in, with_given
from saythesum.desk.guard import visitor
from saythesum.desk.words import day
from saythesum.errors import CallerError
from saythesum.office.own_words import (
    OwnWordsCard,
    erase_own_words,
    note_consent,
    own_words_of,
    own_words_said,
    withdraw_consent,
)
from saythesum.office.upkeep.settings_texts import SettingsError

pages = Blueprint("own_words", __name__, url_prefix="/pupils/<code>/own-words")
Answer = str | tuple[str, int] | Response

_ON = Field("on", "Day of the consent", "As the school has it in writing.", kind="date", is_required=True)
_BY = Field("by", "Noted by", "Your initials, at most four letters, such as AB.", is_required=True)
_NO_YES = (Choice("no", "No"), Choice("yes", "Yes, and the pupil said yes"))


@pages.get("/")
def one(code: str) -> str:
    return _page(own_words_of(the_desk().places, code), {}, {})


@pages.post("/")
def note(code: str) -> Answer:
    desk, given, problems = the_desk(), request.form, dict[str, str]()
    on = day_in(given, "on", problems)
    if on is None and not problems:
        problems["on"] = "Give the day on which the consent was noted."
    if on and not problems:
        asked_again = given.get("asked-again") == "yes"
        try:
            note_consent(desk.places, code, on, given.get("by", "").strip(), desk.now(), is_asked_again=asked_again)
        except SettingsError as error:
            problems["by"] = str(error).replace("own_words.consent_by", _BY.label)
        except CallerError as error:
            problems[""] = str(error)
    if problems:
        return _page(own_words_of(desk.places, code), given, problems), 422
    return _done(code, f"Own words of {code} are on. The pupil is asked, too, before the word game begins.")


@pages.post("/withdraw")
def withdraw(code: str) -> Response:
    desk = the_desk()
    withdraw_consent(desk.places, code, desk.now())
    return _done(code, f"Own words of {code} are off, also in a practice that is going on.")


@pages.post("/erase")
def erase(code: str) -> Response:
    was_kept = erase_own_words(the_desk().places, code)
    return _done(code, f"The own words of {code} are erased." if was_kept else f"No own words of {code} were kept.")


def _done(code: str, notice: str) -> Response:
    visitor().notices.append(notice)
    return redirect(url_for("own_words.one", code=code), 303)


def _page(card: OwnWordsCard, given: Mapping[str, str], problems: Mapping[str, str]) -> str:
    no = card.consent.pupil_said_no
    again = (
        Field("asked-again", f"The pupil said no on {day(no)}: asked again since?", "", "no", _NO_YES) if no else None
    )
    form = with_given(Form([_ON, _BY, *([again] if again else [])]), given, problems)
    said = own_words_said(card, the_desk().now().astimezone().date())
    return render_template("own_words/own_words.html", card=card, form=form, said=list(said))
