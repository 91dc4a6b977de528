"""Records: given out as one file, taken in again after a look at what would come in, erased completely."""

import secrets
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory

from flask import Blueprint, render_template, request
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import SayTheSumError
from saythesum.office.erasing import account_of_erasing, erase, look_at_erasing
from saythesum.office.given_file import EditedError
from saythesum.office.giving import give
from saythesum.office.pupils import list_pupils
from saythesum.office.taking_in import TakenIn, account_of_taking_in, look_in, take_in

pages = Blueprint("records", __name__)
Answer = str | tuple[str, int] | Response

FILE = Form([Field("file", "File of records", "As this desk gives out, its name ending in .json.", kind="file")])
_NO_YES = (Choice("no", "No"), Choice("yes", "Yes"))
_EDITED = Field("edited", "Take it in although it was changed", "", "no", _NO_YES)


@pages.get("/records")
def all() -> str:
    return render_template("records/all.html", pupils=list_pupils(the_desk().places, put_away=True))


@pages.post("/records/give")
def give_out() -> Response:
    """Of the pupils ticked, or of all. Raises CallerError and StoreError."""
    desk = the_desk()
    with TemporaryDirectory() as folder:
        came = give(desk.places, Path(folder), desk.now(), request.form.getlist("code"))
        response = Response(came.file.read_bytes(), mimetype="application/json")
    response.headers["Content-Disposition"] = f'attachment; filename="{came.file.name}"'
    return response


@pages.get("/records/take-in")
def choose() -> str:
    return render_template("records/choose.html", form=FILE)


@pages.post("/records/take-in")
def look() -> Answer:
    """The file waits beside the desk, under a name of ours, until it is taken in or the desk is left."""
    upload = request.files.get("file")
    if not upload or not upload.filename:
        return _choose_page("Choose a file of records first.")
    _forget()
    file = the_desk().places.desk / f"to-take-in-{secrets.token_hex(8)}.json"
    file.parent.mkdir(parents=True, exist_ok=True)
    upload.save(file)
    visitor().waiting = file
    try:
        return _account_page(file, {}, {})
    except SayTheSumError as error:
        _forget()
        return _choose_page(_told(error, file))


@pages.post("/records/taken-in")
def taken_in() -> Answer:
    file, given = visitor().waiting, request.form
    if file is None or not file.exists():
        return _choose_page("That file waits here no longer: choose it once more.")
    names = {old: new for old in _codes(given, "as-") if (new := given[f"as-{old}"].strip().lower()) != old}
    back = {code for code in _codes(given, "back-") if given[f"back-{code}"] == "yes"}
    try:
        if "look" in given:
            return _account_page(file, names, given)
        came = take_in(the_desk().places, file, names, even_edited=given.get("edited") == "yes", even_erased=back)
    except SayTheSumError as error:
        return _account_page(file, {}, given, _told(error, file)), 422
    _forget()
    return render_template("records/taken_in.html", account=account_of_taking_in(came, would=False), pupils=came.pupils)


@pages.get("/pupils/<code>/erase")
def before_erasing(code: str) -> str:
    return _erase_page(code, "")


@pages.post("/pupils/<code>/erase")
def erased(code: str) -> Answer:
    desk = the_desk()
    if request.form.get("code", "").strip().lower() != code:
        return _erase_page(code, f"Nothing is erased yet: type {code} here, so that no slip of a key erases it."), 422
    came = erase(desk.places, code, desk.now())
    return render_template("records/erased.html", code=code, account=account_of_erasing(came, would=False))


def _choose_page(problem: str) -> tuple[str, int]:
    return render_template("records/choose.html", form=with_given(FILE, {}, {"file": problem})), 422


def _account_page(file: Path, names: Mapping[str, str], given: Mapping[str, str], problem: str = "") -> str:
    """What would come in. Raises CallerError and StoreError."""
    places, is_edited = the_desk().places, False
    try:
        came = look_in(places, file, names)
    except EditedError:
        is_edited = True
        came = look_in(places, file, names, even_edited=True)
    form = _account_form(came, {new: old for old, new in names.items()}, is_edited=is_edited)
    return render_template(
        "records/account.html",
        form=with_given(form, given, {"": problem} if problem else {}),
        account=account_of_taking_in(came, would=True),
    )


def _account_form(came: TakenIn, in_file: Mapping[str, str], *, is_edited: bool) -> Form:
    """`in_file`: codes here to those in the file, where they differ."""
    fields = [_as_field(in_file.get(code, code), code, is_known=code in came.known_here) for code in came.pupils]
    fields += [
        Field(f"back-{code}", f"{code} was erased here: bring {code} back", "", "no", _NO_YES)
        for code in came.erased_here
    ]
    return Form([*fields, *([_EDITED] if is_edited else [])])


def _as_field(old: str, new: str, *, is_known: bool) -> Field:
    joined = (
        "Here before: the practices of both are joined. Another child of the same code gets another code here."
        if is_known
        else "Not here yet."
    )
    return Field(f"as-{old}", f"{old} in the file is, here", joined, new)


def _codes(given: Mapping[str, str], prefix: str) -> list[str]:
    return [name.removeprefix(prefix) for name in given if name.startswith(prefix)]


def _erase_page(code: str, problem: str) -> str:
    desk = the_desk()
    account = account_of_erasing(look_at_erasing(desk.places, code), would=True)
    field = Field("code", f"To erase all of it, type {code}", "It cannot be undone.", problem=problem)
    return render_template("records/erase.html", code=code, account=account, form=Form([field]))


def _told(error: SayTheSumError, file: Path) -> str:
    return str(error).replace(str(file), "The file")


def _forget() -> None:
    """The file that waited."""
    waiting, visitor().waiting = visitor().waiting, None
    if waiting:
        with suppress(OSError):
            waiting.unlink()
