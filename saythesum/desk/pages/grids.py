"""Grids: starters and own ones, shown with what they tell apart; copied, renamed, put away, taken in, given out."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import Cell, Grid, Order, walk
from saythesum.core.grids.starters import STARTERS
from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Field, Form, with_given
from saythesum.desk.guard import visitor
from saythesum.errors import CallerError, GridError
from saythesum.office.grids import (
    GridCard,
    bring_grid_back,
    copy_grid,
    facts,
    grid_name,
    list_grids,
    open_grid,
    put_grid_away,
    rename_grid,
    save_grid,
    take_grid_in,
)
from saythesum.wording.for_adults.mistake_words import mistake_said
from saythesum.wording.for_adults.said_grids import kinds_said

pages = Blueprint("grids", __name__, url_prefix="/grids")
Answer = str | tuple[str, int] | Response

NAME_HINT = "Small letters, digits and hyphens, at most 40, such as harbour-2."
TYPED = Form(
    [
        Field("name", "Name of the grid", NAME_HINT, is_required=True),
        Field(
            "text",
            "The grid",
            "A line for each: its title; what is added along the top, 1 to 9 (take in place of add takes away); the "
            "starts down the side, 0 to 999; the order: rows, columns, shuffled, or chosen by what the pupil needs.",
            'title = "Seats on the ferry"\nadd = [5, 8, 3]\nstart = [47, 59, 36]\norder = "rows"\n',
            kind="lines",
        ),
    ]
)
TAKE_IN = Form(
    [
        Field("file", "Grid file", "A text file as this desk gives out, its name ending in .toml.", kind="file"),
        Field("name", "Name here", f"Left empty, it follows from the file's name. {NAME_HINT}"),
    ]
)
NEW_NAME = Form([Field("name", "New name", NAME_HINT, is_required=True)])
WAYS = {"copy": "Copy", "rename": "Rename"}


@dataclass(frozen=True, slots=True)
class Table:
    """A grid to be read: each cell with its answer, under its column and beside its row."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, tuple[int, ...]], ...]


def table_of(grid: Grid) -> Table:
    if grid.is_one_by_one:
        asked = map(grid.exercise_at, walk(replace(grid, order=Order.ROWS), 0))
        return Table(("Answer",), tuple((one.shown, (one.total,)) for one in asked))
    across, down = range(len(grid.amounts)), range(len(grid.starts))
    first = [grid.exercise_at(Cell(0, column)) for column in across]
    return Table(
        tuple(f"{one.operator.sign} {one.amount}" for one in first),
        tuple(
            (str(grid.starts[row]), tuple(grid.exercise_at(Cell(row, column)).total for column in across))
            for row in down
        ),
    )


def facts_shown(grid: Grid) -> Mapping[str, object]:
    """What a template needs to show a grid."""
    known = facts(grid)
    return {
        "grid": grid,
        "table": table_of(grid),
        "kinds": kinds_said(known.about),
        "told_apart": [mistake_said(name) for name in known.shown.told_apart],
        "alike": [" and ".join(map(mistake_said, names)) for names in known.shown.alike],
        "unseen": [mistake_said(name) for name in known.shown.unseen],
    }


@pages.get("/")
def all() -> str:
    cards = list_grids(the_desk().places, put_away=True)
    return render_template("grids/all.html", cards=cards, why={starter.name: starter.why for starter in STARTERS})


@pages.get("/typed")
def typed() -> str:
    """A new one, or `grid`, an own one, to be changed."""
    if name := request.args.get("grid"):
        card = _card(name)
        return _typed_page(with_given(TYPED, {"name": card.name, "text": text_of(open_grid(the_desk().places, name))}))
    return _typed_page(TYPED)


@pages.post("/typed")
def save_typed() -> Answer:
    places, given, problems = the_desk().places, request.form, dict[str, str]()
    is_change = given.get("over") == "yes"
    try:
        grid = grid_from(given.get("text", ""))
    except GridError as error:
        problems["text"] = str(error).replace("\n", " ")
    if not problems:
        try:
            save_grid(places, given.get("name", ""), grid, over=is_change)
        except GridError as error:
            problems["name"] = str(error)
    if problems:
        return _typed_page(with_given(TYPED, given, problems), is_change=is_change), 422
    visitor().notices.append(f"The grid {grid_name(given['name'])} is saved.")
    return redirect(url_for("grids.one", name=grid_name(given["name"])), 303)


@pages.get("/take-in")
def take_in() -> str:
    return render_template("grids/take_in.html", form=TAKE_IN)


@pages.post("/take-in")
def taken_in() -> Answer:
    """The sender's file name is never a path here: its letters only suggest a name."""
    given, upload = request.form, request.files.get("file")
    problems: dict[str, str] = {}
    if not upload or not upload.filename:
        problems["file"] = "Choose a grid file first."
    else:
        with TemporaryDirectory() as folder:
            file = Path(folder) / "grid.toml"
            upload.save(file)
            name = given.get("name", "").strip() or Path(upload.filename.replace("\\", "/")).stem
            try:
                came = take_grid_in(the_desk().places, file, _as_name(name))
                visitor().notices.append(f"The grid {came.stem} is taken in.")
                return redirect(url_for("grids.one", name=came.stem), 303)
            except GridError as error:
                sentence = str(error).replace(str(file), "The file")
                problems["name" if "name" in sentence.split(":")[0] else "file"] = sentence
    return render_template("grids/take_in.html", form=with_given(TAKE_IN, given, problems)), 422


@pages.get("/<name>/")
def one(name: str) -> str:
    card = _card(name)
    if card.grid is None:
        return render_template("grids/broken.html", card=card)
    starter = next((starter for starter in STARTERS if card.is_starter and starter.name == card.name), None)
    return render_template("grids/one.html", card=card, starter=starter, **facts_shown(card.grid))


@pages.get("/<name>/grid.toml")
def give_out(name: str) -> Response:
    places = the_desk().places
    response = Response(text_of(open_grid(places, name)), mimetype="application/toml")
    response.headers["Content-Disposition"] = f'attachment; filename="{grid_name(name)}.toml"'
    return response


@pages.get("/<name>/<any(copy, rename):way>")
def rename(name: str, way: str) -> str:
    return _rename_page(_card(name), way, NEW_NAME)


@pages.post("/<name>/<any(copy, rename):way>")
def renamed(name: str, way: str) -> Answer:
    card, new = _card(name), request.form.get("name", "")
    act = copy_grid if way == "copy" else rename_grid
    try:
        file = act(the_desk().places, card.name, new)
    except GridError as error:
        return _rename_page(card, way, with_given(NEW_NAME, request.form, {"name": str(error)})), 422
    visitor().notices.append(f"{card.name} is {'copied to' if way == 'copy' else 'called'} {file.stem} now.")
    return redirect(url_for("grids.one", name=file.stem), 303)


@pages.post("/<name>/put-away")
def away(name: str) -> Response:
    places = the_desk().places
    if "back" in request.form:
        file = bring_grid_back(places, name)
        visitor().notices.append(f"{file.stem} is in the list again.")
    else:
        put_grid_away(places, name)
        visitor().notices.append(f"{grid_name(name)} is put away; nothing is lost.")
    return redirect(url_for("grids.all"), 303)


def _card(name: str) -> GridCard:
    """Raises CallerError."""
    cards = list_grids(the_desk().places, put_away=True)
    found = next((card for card in cards if card.name == grid_name(name)), None)
    if found is None:
        raise CallerError(f"There is no grid {grid_name(name)}.")
    return found


def _typed_page(form: Form, *, is_change: bool = True) -> str:
    return render_template("grids/typed.html", form=form, is_change=is_change and bool(form.by_name["name"].value))


def _rename_page(card: GridCard, way: str, form: Form) -> str:
    return render_template("grids/rename.html", card=card, form=form, way=way, does=WAYS[way])


def _as_name(given: str) -> str:
    return "-".join(
        "".join(letter if letter.isascii() and letter.isalnum() else " " for letter in given.lower()).split()
    )
