"""Sheets: a grid in print, braille or sound as one file to save; and the answers that came back on paper."""

from collections.abc import Mapping, Sequence
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from uuid import UUID, uuid4
from zipfile import ZIP_DEFLATED, ZipFile

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError, VoiceError
from saythesum.office.grids import grid_name, open_grid
from saythesum.office.papers.paper_answers import Written, keep_paper
from saythesum.office.papers.sheets import KeptSheet, sheet_of
from saythesum.office.pupils import codes, everybodys_settings, known_code, show_pupil
from saythesum.publishing.sheets.making import MadeSheet, SheetWish, make_sheet
from saythesum.settings import Settings
from saythesum.store.pupils import FIRST_PUPIL

pages = Blueprint("sheets", __name__)
Answer = str | tuple[str, int] | Response

KINDS = {"print": "Large print", "braille": "Braille, for an embosser", "sound": "Sound, a file for each row"}
_NO_YES = (Choice("no", "No"), Choice("yes", "Yes"))
SHEET = Form(
    [
        Field("kind", "As", "", "print", [Choice(value, words) for value, words in KINDS.items()]),
        Field(
            "for",
            "For whom",
            "By the size of print, the colours, the braille and the pause in this pupil's settings; for nobody, "
            "by everybody's.",
            choices=[Choice("", "Nobody in particular")],
        ),
        Field("steps", "Steps to fill in", "In print and braille.", "no", _NO_YES),
        Field("line", "A number line for each sum", "In print.", "no", _NO_YES),
        Field("pdf", "Print as PDF, too", "Beside HTML, which any browser prints.", "yes", _NO_YES[::-1]),
    ]
)
CODE = Form([Field("code", "Code of the sheet", "Five letters, at its top.", is_required=True, is_first=True)])
WRITTEN = {
    "hand": ("By hand", Written.HAND),
    "brailler": ("On a brailler", Written.BRAILLER),
    "said": ("Said to an adult", Written.SAID),
}
LEFT_EMPTY = ("", "-")


@pages.get("/grids/<name>/sheet")
def sheet(name: str) -> str:
    return _sheet_page(name, with_given(_sheet_form(), {"for": request.args.get("for", "")}))


@pages.post("/grids/<name>/sheet")
def made(name: str) -> Answer:
    """The sheet, its answers and the helper's page. What is said of them goes along, and stands on the next page."""
    desk, given = the_desk(), request.form
    try:
        pupil, settings = _for_whom(given.get("for", ""))
        kind = given["kind"] if given.get("kind") in KINDS else "print"
        with_steps, with_line, with_pdf = (given.get(one) == "yes" for one in ("steps", "line", "pdf"))
        wish = SheetWish(open_grid(desk.places, name), pupil, kind, with_steps, with_line, with_pdf)
        with TemporaryDirectory() as folder:
            came = make_sheet(desk.places, wish, settings, desk.now(), Path(folder))
            content = _as_one_file(Path(folder), came)
    except (CallerError, VoiceError) as error:
        return _sheet_page(name, with_given(_sheet_form(), given, {"": str(error)})), 422
    visitor().notices += [f"Sheet {came.code}, of {wish.grid.title}, is made. {came.about}", *came.notices]
    response = Response(content, mimetype="application/zip")
    response.headers["Content-Disposition"] = f'attachment; filename="sheet-{came.code}-{kind}.zip"'
    return response


@pages.get("/paper")
def paper() -> Answer:
    """Which sheet it is, or `code`'s cells to be filled in."""
    if "code" not in request.args:
        return render_template("sheets/code.html", form=CODE, pupil=request.args.get("for", ""))
    try:
        kept = sheet_of(the_desk().places, request.args["code"])
    except CallerError as error:
        form = with_given(CODE, request.args, {"code": str(error)})
        return render_template("sheets/code.html", form=form, pupil=request.args.get("for", "")), 422
    whose = request.args.get("for") or kept.pupil
    return _paper_page(kept, with_given(_paper_form(kept), {"for": whose}), str(uuid4()))


@pages.post("/paper")
def paper_kept() -> Answer:
    """`practice` keeps what is sent twice from being kept twice."""
    desk, given, problems = the_desk(), request.form, dict[str, str]()
    kept = sheet_of(desk.places, given.get("code", ""))
    answers = [_answer(given, name, problems) for name in _cells(kept)]
    if not given.get("for"):
        problems["for"] = "Choose whose answers these are."
    try:
        practice = UUID(given.get("practice", ""))
    except ValueError:
        practice = uuid4()
    if not problems:
        _, written = WRITTEN.get(given.get("written", ""), WRITTEN["hand"])
        try:
            pupil = known_code(desk.places, given["for"])
            came = keep_paper(desk.places, pupil, kept, answers, written, practice, desk.now())
        except CallerError as error:
            problems[""] = str(error)
    if problems:
        return _paper_page(kept, with_given(_paper_form(kept), given, problems), str(practice)), 422
    empty = f", {came.empty} left empty" if came.empty else ""
    visitor().notices.append(
        f"{came.answered} answers of {pupil} are kept as paper, {came.right} of them right{empty}. "
        "They stand apart from what was answered at the tool."
    )
    return redirect(url_for("pupils.one", code=pupil), 303)


def _for_whom(given: str) -> tuple[str, Settings]:
    """Raises CallerError."""
    places = the_desk().places
    if not given:
        settings, _ = everybodys_settings(places)
        return FIRST_PUPIL, settings
    card = show_pupil(places, given)
    return card.code, card.settings


def _sheet_form() -> Form:
    return Form([_with_pupils(one) if one.name == "for" else one for one in SHEET.fields])


def _with_pupils(field: Field) -> Field:
    known = [Choice(code, code) for code in codes(the_desk().places)]
    return Field(field.name, field.label, field.hint, choices=[*field.choices, *known])


def _sheet_page(name: str, form: Form) -> str:
    grid = open_grid(the_desk().places, name)
    return render_template("sheets/sheet.html", name=grid_name(name), grid=grid, form=form)


def _as_one_file(folder: Path, came: MadeSheet) -> bytes:
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as files:
        for name in came.files:
            files.write(folder / name, name)
        files.writestr("about.txt", "\r\n".join([came.about, *came.notices, ""]))
    return packed.getvalue()


def _cells(kept: KeptSheet) -> Sequence[str]:
    return [f"cell-{place}" for place, _ in enumerate(kept.cells, 1)]


def _paper_form(kept: KeptSheet) -> Form:
    sums = [kept.grid.exercise_at(cell).shown for cell in kept.cells]
    ways = [Choice(one, words) for one, (words, _) in WRITTEN.items()]
    return Form(
        [
            _with_pupils(Field("for", "Whose answers", choices=[Choice("", "Choose the pupil")])),
            Field("written", "How they were given", "", "hand", ways),
            *(Field(name, shown) for name, shown in zip(_cells(kept), sums, strict=True)),
        ]
    )


def _paper_page(kept: KeptSheet, form: Form, practice: str) -> str:
    return render_template("sheets/typed.html", sheet=kept, form=form, cells=_cells(kept), practice=practice)


def _answer(given: Mapping[str, str], name: str, problems: dict[str, str]) -> int | None:
    text = given.get(name, "").strip()
    if text in LEFT_EMPTY:
        return None
    if text.isascii() and text.isdigit() and len(text) <= 4:
        return int(text)
    problems[name] = f"“{text[:20]}” is no answer; right would be a number, or nothing for an empty cell."
    return None
