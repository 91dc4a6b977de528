"""A grid from what it is to be: looked at before it is saved, or why there is none."""

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import count

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import Order
from saythesum.core.grids.wishes import CannotBeMade, GridWish
from saythesum.core.sums import Kind
from saythesum.desk.desk import the_desk
from saythesum.desk.forms import Choice, Field, Form, with_given
from saythesum.desk.guard import visitor
from saythesum.desk.pages.grids import NAME_HINT, facts_shown
from saythesum.errors import CallerError, GridError
from saythesum.office.grids import list_grids, make_grid, numbers_in, save_grid
from saythesum.office.last_mistakes import last_mistakes, wish_for
from saythesum.office.pupils import known_code
from saythesum.wording.for_adults.mistake_words import mistake_said
from saythesum.wording.for_adults.said_grids import why_not

pages = Blueprint("wishes", __name__, url_prefix="/grids")
Answer = str | tuple[str, int] | Response

_KINDS: Mapping[str, tuple[str, frozenset[Kind]]] = {
    "any": ("Any", frozenset(Kind)),
    "crossing": ("All cross a ten", frozenset({Kind.CROSSING})),
    "landing": ("All land on a ten", frozenset({Kind.LANDING})),
    "crossing-or-landing": ("All cross a ten or land on one", frozenset({Kind.CROSSING, Kind.LANDING})),
    "not-crossing": ("None crosses a ten", frozenset({Kind.WITHIN})),
}
_HUNDRED = {"any": None, "yes": True, "no": False}
WISH = Form(
    [
        Field("kinds", "Sums", "", "crossing", [Choice(value, words) for value, (words, _) in _KINDS.items()]),
        Field("starts", "Starts, down the side", "From one to another, or listed: 20-60, or 37, 48, 59.", "20-89"),
        Field("amounts", "Amounts, along the top", "1 to 9, likewise.", "3-9"),
        Field("rows", "How many rows", "", "4"),
        Field("columns", "How many columns", "", "3"),
        Field("bonds", "Bonds to ten", "By one of the two numbers: 3 is three and seven. Empty: any."),
        Field(
            "hundred",
            "Across a hundred",
            "",
            "any",
            [Choice("any", "Either way"), Choice("yes", "All reach or pass a hundred"), Choice("no", "None does")],
        ),
        Field(
            "unequal",
            "Equal answers",
            "Where no two are the same, an answer shows which sum it belongs to.",
            "yes",
            [Choice("yes", "No two answers are the same"), Choice("no", "The same answer may come twice")],
        ),
        Field(
            "order",
            "Order",
            "",
            Order.ROWS.value,
            [
                Choice("rows", "Row by row"),
                Choice("columns", "Column by column"),
                Choice("shuffled", "Shuffled"),
                Choice("chosen", "Chosen by what the pupil needs"),
            ],
        ),
    ]
)
MISTAKES = Field(
    "mistakes",
    "What the last mistakes ask for",
    "",
    "yes",
    [Choice("yes", "Sums that tell these apart"), Choice("no", "Leave them out of it")],
)
SAVE = Form([Field("name", "Name of the grid", NAME_HINT), Field("title", "Title", "Told to the pupil at the start.")])


@pages.get("/new")
def new() -> str:
    return _wish_page(WISH)


@pages.post("/new")
def make() -> Answer:
    """What the wish comes to; nothing is saved."""
    given, problems = request.form, dict[str, str]()
    wish = _wish(given, problems)
    came = None
    if not problems:
        if given.get("mistakes") == "yes" and (pupil := _pupil()):
            wish = wish_for(last_mistakes(the_desk().places, pupil), wish)
        came = make_grid(wish, secrets.randbelow(2**31))
        if isinstance(came, CannotBeMade):
            problems[""] = why_not(came)
    if came is None or isinstance(came, CannotBeMade):
        return _wish_page(with_given(WISH, given, problems)), 422
    return _made_page(text_of(came.grid), [" and ".join(map(mistake_said, names)) for names in came.alike], {})


@pages.post("/save")
def save() -> Answer:
    """The grid as it was looked at, by its text."""
    places, given = the_desk().places, request.form
    try:
        grid = grid_from(given.get("text", ""))
        file = save_grid(
            places, given.get("name", ""), replace(grid, title=given.get("title", "").strip() or grid.title)
        )
    except GridError as error:
        return _made_page(given.get("text", ""), [], {"name": str(error)}), 422
    visitor().notices.append(f"The grid {file.stem} is saved.")
    if pupil := given.get("for"):
        return redirect(url_for("pupils.one", code=pupil, grid=file.stem), 303)
    return redirect(url_for("grids.one", name=file.stem), 303)


def _wish(given: Mapping[str, str], problems: dict[str, str]) -> GridWish:
    return GridWish(
        rows=_whole(given, "rows", problems),
        columns=_whole(given, "columns", problems),
        starts=_numbers(given, "starts", problems),
        amounts=_numbers(given, "amounts", problems),
        kinds=_KINDS.get(given.get("kinds", ""), _KINDS["any"])[1],
        bonds=frozenset(_numbers(given, "bonds", problems)) if given.get("bonds", "").strip() else frozenset(),
        across_hundred=_HUNDRED.get(given.get("hundred", "any")),
        unequal=given.get("unequal") != "no",
        order=Order(given["order"]) if given.get("order") in set(Order) else Order.ROWS,
    )


def _wish_page(form: Form) -> str:
    pupil = _pupil()
    if pupil and (names := last_mistakes(the_desk().places, pupil).names):
        could_be = (
            f"Lately it could have been {', or '.join(map(mistake_said, names))}. They might be: nobody is diagnosed."
        )
        field = replace(MISTAKES, hint=could_be, value=request.form.get("mistakes", "yes"))
        form = Form([*form.fields, field], form.problems)
    return render_template("wishes/wish.html", form=form, pupil=pupil)


def _made_page(text: str, alike: Sequence[str], problems: Mapping[str, str]) -> str:
    """Raises GridError where the text was changed on its way."""
    grid = grid_from(text)
    proposed = {"name": _free_name(), "title": grid.title}
    form = with_given(SAVE, {**proposed, **({} if not problems else request.form)}, problems)
    wish = {name: request.form.get(name, "") for name in (*WISH.by_name, MISTAKES.name)}
    return render_template(
        "wishes/made.html", form=form, text=text, not_apart=alike, wish=wish, pupil=_pupil(), **facts_shown(grid)
    )


def _pupil() -> str:
    """For whom the grid is made, if that was said. Raises CallerError."""
    given = request.values.get("for", "")
    return known_code(the_desk().places, given) if given else ""


def _free_name() -> str:
    """A name that can be kept as it is proposed."""
    taken = {card.name for card in list_grids(the_desk().places)}
    return next(name for number in count(1) if (name := f"grid-{number}") not in taken)


def _whole(given: Mapping[str, str], name: str, problems: dict[str, str]) -> int:
    text = given.get(name, "").strip()
    if text.isascii() and text.isdigit() and len(text) <= 4:
        return int(text)
    problems[name] = f"{WISH.by_name[name].label}: a whole number from 1 to 20."
    return 1


def _numbers(given: Mapping[str, str], name: str, problems: dict[str, str]) -> tuple[int, ...]:
    try:
        return numbers_in(given.get(name, ""))
    except CallerError as right:
        problems[name] = f"{WISH.by_name[name].label} cannot be “{given.get(name, '')[:30]}”; right would be {right}."
        return ()
