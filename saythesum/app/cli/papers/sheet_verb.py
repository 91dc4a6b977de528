"""The verb `sheet`: a grid in large print, in braille or as sound, and its answers typed in again."""

import argparse
from dataclasses import replace
from pathlib import Path
from typing import Any, get_args

from saythesum.app.cli.papers.sheet_answers import type_in
from saythesum.app.cli.plain_parser import Verbs, cannot_be, one_of
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.setup.grid_files import grid_in
from saythesum.app.setup.pupil_settings import settings_of
from saythesum.app.terminal.console import show, tell
from saythesum.errors import CallerError
from saythesum.settings import Paper, Sheets
from saythesum.settings.reading import limits_of
from saythesum.settings.toml_text import shown
from saythesum.store.pupils import FIRST_PUPIL, pupil_code

KINDS = ("print", "braille", "sound")
OF_THE_LOOK = ("print_size", "paper", "braille_cells", "braille_lines", "pause_ms")
"""Settings that an option may give for this once."""


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "sheet",
        needs="GRID",
        help="a grid in large print, in braille or as sound",
        description="Make a sheet of a grid, its answers, and a page for the helper; and take its answers in again:\n"
        "saythesum sheet answers CODE. The pupil's own print size, colours and braille are used.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="Example: saythesum sheet ferry.toml --as braille --into sheets",
    )
    verb.add_argument_group("which").add_argument(
        "words",
        metavar="GRID",
        nargs="+",
        help="a grid file, or the name of a grid of yours or a starter grid; or: answers CODE, to type answers in",
    )
    verb.add_argument("--as", metavar="KIND", dest="kind", type=one_of(KINDS), default="print", help=", ".join(KINDS))
    verb.add_argument("--into", metavar="FOLDER", type=Path, default=Path(), help="where the files are written")
    verb.add_argument("--pupil", metavar="CODE", default=FIRST_PUPIL, help="for whom it is: by their settings")
    verb.add_argument("--steps", action="store_true", help="with the steps to fill in")
    verb.add_argument("--line", action="store_true", help="with a number line for each sum")
    verb.add_argument("--pdf", action="store_true", help="print as PDF, too")
    for option, name, about in (
        ("--size", "print_size", "of the print, in points: 18 to 48"),
        ("--cells", "braille_cells", "in a line of braille"),
        ("--lines", "braille_lines", "on a page of braille"),
        ("--pause", "pause_ms", "after each sum of a sound sheet, in milliseconds"),
    ):
        verb.add_argument(option, metavar="N", dest=name, type=_limited(name), help=about)
    verb.add_argument("--paper", metavar="PAPER", type=one_of(get_args(Paper)), help="A4 or A3")
    verb.add_argument(
        "--by", metavar="HOW", type=one_of(("hand", "brailler", "said")), default="hand", help="how answers were given"
    )
    verb.set_defaults(run=_sheet)


def _limited(name: str) -> Any:
    limits = limits_of(Sheets, name)

    def taken(text: str) -> Any:
        try:
            return limits.taken(int(text) if text.isdecimal() else text)
        except CallerError as right:
            raise cannot_be(text, f"it is {right}") from right

    return taken


def _sheet(options: argparse.Namespace) -> None:
    first, *more = options.words
    if first == "answers":
        type_in(more, options.pupil, options.by)
    elif more:
        raise CallerError(f"{shown(more[0])} has no meaning after a grid; for answers: saythesum sheet answers CODE")
    else:
        _make(Path(first), options)


def _make(file: Path, options: argparse.Namespace) -> None:
    # The libraries of pages, braille and sound are loaded where they are needed.
    from saythesum.publishing.sheets.making import SheetWish, make_sheet

    own, pupil = own_places(), pupil_code(options.pupil)
    settings = settings_of(pupil, own)
    for_once = {name: value for name in OF_THE_LOOK if (value := getattr(options, name)) is not None}
    settings = replace(settings, sheets=replace(settings.sheets, **for_once))
    wish = SheetWish(grid_in(file), pupil, options.kind, options.steps, options.line, options.pdf)
    made = make_sheet(own, wish, settings, RealClock().now(), options.into)
    for notice in made.notices:
        tell(notice)
    show(f"Sheet {made.code}, of {wish.grid.title}. {made.about}")
    for name in made.files:
        show(str(options.into / name))
