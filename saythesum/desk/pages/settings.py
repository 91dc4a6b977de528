"""The settings of one pupil, or of everybody, with a voice to hear and colours to see before anything is kept."""

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from flask import Blueprint, Response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as Redirect

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import with_given
from saythesum.desk.guard import visitor
from saythesum.desk.preview import PHRASE, drawn, spoken
from saythesum.desk.settings_form import form_of, in_label_words, sections, texts_from, typed
from saythesum.errors import CallerError, VoiceError
from saythesum.office.pupils import (
    change_everybody,
    change_pupil,
    everybodys_settings,
    everybodys_values,
    own_values,
    show_pupil,
)
from saythesum.office.upkeep.settings_texts import SettingsError, would_be
from saythesum.settings import Settings

pages = Blueprint("settings", __name__)
Answer = str | tuple[str, int] | Redirect


@dataclass(frozen=True, slots=True)
class _Whose:
    code: str
    """ "" for everybody."""
    own: Mapping[str, Any]
    base: Settings
    problems: tuple[str, ...]
    keep: Callable[[Mapping[str, str]], object]

    @property
    def left_open(self) -> str:
        return "As for everybody" if self.code else "As it comes"


@pages.get("/pupils/<code>/settings")
def of_pupil(code: str) -> str:
    return _shown(_pupil(code))


@pages.post("/pupils/<code>/settings")
def change_of_pupil(code: str) -> Answer:
    return _changed(_pupil(code), url_for("pupils.one", code=code))


@pages.get("/everybody")
def of_everybody() -> str:
    return _shown(_everybody())


@pages.post("/everybody")
def change_of_everybody() -> Answer:
    return _changed(_everybody(), url_for("pupils.all"))


@pages.get("/preview/voice.wav")
def voice() -> Response:
    """Raises CallerError and VoiceError."""
    speech = _with_settings(request.args, Settings()).speech
    return Response(spoken(speech, the_desk().places.cache), mimetype="audio/wav")


@pages.get("/preview/window.png")
def window() -> Response:
    """Raises CallerError and ScreenError."""
    return Response(drawn(_with_settings(request.args, Settings()).window), mimetype="image/png")


def _pupil(code: str) -> _Whose:
    desk = the_desk()
    card = show_pupil(desk.places, code)
    base, _ = everybodys_settings(desk.places)
    return _Whose(
        card.code,
        own_values(desk.places, card.code),
        base,
        card.problems,
        lambda texts: change_pupil(desk.places, card.code, texts, desk.now()),
    )


def _everybody() -> _Whose:
    places = the_desk().places
    _, problems = everybodys_settings(places)
    return _Whose("", everybodys_values(places), Settings(), problems, lambda texts: change_everybody(places, texts))


def _changed(whose: _Whose, back: str) -> Answer:
    given = request.form
    texts, problems = texts_from(given, whose.own)
    try:
        _ = would_be(texts, whose.base)
        if problems:
            return _shown(whose, given, problems), 422
        if preview := given.get("preview"):
            return _shown(whose, given, preview=preview)
        whose.keep(texts)
    except SettingsError as error:
        return _shown(whose, given, {**problems, **in_label_words(error.problems)}), 422
    except (CallerError, VoiceError) as error:
        return _shown(whose, given, {"": str(error)}), 422
    count = {0: "Nothing was changed", 1: "One setting is changed"}.get(
        len(texts), f"{len(texts)} settings are changed"
    )
    visitor().notices.append(f"{count} for {whose.code or 'everybody'}.")
    return redirect(back, 303)


def _shown(whose: _Whose, given: Mapping[str, str] = {}, problems: Mapping[str, str] = {}, *, preview: str = "") -> str:
    """`preview`: the table of settings that is to be heard or seen. Raises SettingsError and VoiceError."""
    parts = sections(whose.own, whose.base, whose.left_open)
    chosen = _chosen(preview, whose, given) if preview else {}
    if preview == "speech":
        _ = spoken(_with_settings(chosen, whose.base).speech, the_desk().places.cache)  # trouble is told on this page
    return render_template(
        "settings/settings.html",
        whose=whose,
        sections=parts,
        form=with_given(form_of(parts), given, problems),
        preview=preview,
        chosen=chosen,
        phrase=PHRASE,
    )


def _chosen(table: str, whose: _Whose, given: Mapping[str, str]) -> dict[str, str]:
    """All settings of a table as they would hold, as a form has them."""
    would_hold = asdict(getattr(_with_settings(given, whose.base, table), table))
    return {f"{table}.{name}": typed(f"{table}.{name}", value) for name, value in would_hold.items()}


def _with_settings(given: Mapping[str, str], base: Settings, *tables: str) -> Settings:
    """`base` with what was given of these tables, or of all. Raises SettingsError."""
    wanted = {name: text for name, text in given.items() if "." in name and text.strip()}
    if tables:
        wanted = {name: text for name, text in wanted.items() if name.partition(".")[0] in tables}
    texts, _ = texts_from(wanted, {})
    return would_be(texts, base)
