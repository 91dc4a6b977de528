"""The verb `grid make`: a grid from a wish, or what stands against it."""

import argparse
from random import SystemRandom
from typing import Any

from saythesum.app.cli.plain_parser import cannot_be, one_of
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show
from saythesum.core.grids.grid import Order
from saythesum.core.grids.wishes import CannotBeMade, GridWish
from saythesum.core.sums import Kind
from saythesum.errors import CallerError
from saythesum.office.grids import make_grid, numbers_in, save_grid
from saythesum.office.last_mistakes import last_mistakes, wish_for
from saythesum.wording.for_adults.mistake_words import mistake_said
from saythesum.wording.for_adults.said_grids import why_not


def add_grid_make(kinds: Any) -> None:
    verb = kinds.add_parser(
        "make",
        needs="NAME",
        help="make a grid from what it is to be",
        description="Make a grid and save it under a name, or say why there is none.",
        epilog="Example: saythesum grid make harbour --crossing all --rows 4 --columns 3",
    )
    verb.add_argument("name", metavar="NAME", help="what it is saved as, and asked for by")
    verb.add_argument(
        "--starts", metavar="LIST", type=_numbers, default=GridWish().starts, help="such as 20-60 or 37,48"
    )
    verb.add_argument("--amounts", metavar="LIST", type=_numbers, default=GridWish().amounts, help="such as 2-9 or 4,7")
    verb.add_argument(
        "--crossing",
        metavar="KINDS",
        type=_kinds,
        default=frozenset(Kind),
        help="all, or of crossing, landing, not-crossing",
    )
    verb.add_argument("--bonds", metavar="LIST", type=_numbers, help="lead to the ten by these, such as 3,4")
    verb.add_argument(
        "--hundred", metavar="WHERE", type=one_of(("across", "below")), help="across: every sum; below: none"
    )
    verb.add_argument("--equal", action="store_true", help="the same answer may come more than once")
    verb.add_argument("--for", metavar="CODE", dest="code", help="what this pupil's last mistakes ask for")
    verb.add_argument("--title", metavar="TEXT", default="", help="its title; without it, its numbers")
    verb.add_argument("--order", metavar="ORDER", type=one_of(tuple(Order)), help="rows, columns, shuffled or chosen")
    verb.add_argument("--rows", metavar="N", type=int, default=4, help="how many starts, usually 4")
    verb.add_argument("--columns", metavar="N", type=int, default=3, help="how many amounts, usually 3")
    verb.add_argument("--seed", metavar="N", type=int, help="with the same number the same grid comes again")
    verb.set_defaults(run=_make)


def _make(options: argparse.Namespace) -> None:
    wish = GridWish(
        rows=options.rows,
        columns=options.columns,
        starts=options.starts,
        amounts=options.amounts,
        kinds=options.crossing,
        bonds=frozenset(options.bonds or ()),
        across_hundred=None if options.hundred is None else options.hundred == "across",
        unequal=not options.equal,
        title=options.title,
        order=Order(options.order or Order.ROWS),
    )
    if options.code:
        wish = wish_for(last_mistakes(own_places(), options.code), wish)
        _show_asked_for(options.code, wish)
    came = make_grid(wish, SystemRandom().randrange(2**31) if options.seed is None else options.seed)
    if isinstance(came, CannotBeMade):
        raise CallerError(why_not(came))
    show(f"Saved as {save_grid(own_places(), options.name, came.grid)}.")
    for names in came.alike:
        show(f"It cannot tell apart: {', '.join(mistake_said(name) for name in names)}.")
    show(f"Practise it: saythesum practise --grid {options.name}")


def _show_asked_for(code: str, wish: GridWish) -> None:
    if not wish.mistakes:
        show(f"No mistake of {code} lately asks for anything: the grid is as wished.")
        return
    kinds = ", ".join(sorted(wish.kinds))
    could_be = ", ".join(mistake_said(name) for name in wish.mistakes)
    show(f"The last mistakes of {code} ask for {kinds} sums that tell apart what they might be: {could_be}.")


def _numbers(text: str) -> tuple[int, ...]:
    try:
        return numbers_in(text)
    except CallerError as right:
        raise cannot_be(text, f"it is {right}") from right


def _kinds(text: str) -> frozenset[Kind]:
    names = ["crossing"] if text == "all" else text.split(",")
    if not {*names} <= {kind.value for kind in Kind}:
        raise cannot_be(text, "it is all, or of crossing, landing, not-crossing with commas between")
    return frozenset(map(Kind, names))
