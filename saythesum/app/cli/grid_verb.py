"""Showing and checking grids, for the teacher: plain lines."""

import argparse
from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby
from pathlib import Path

from saythesum.app.cli.grid_make import add_grid_make
from saythesum.app.cli.plain_parser import Verbs
from saythesum.app.setup.grid_files import grid_in
from saythesum.app.terminal.console import show
from saythesum.core.grids.grid import Cell, Grid, Order, about, walk
from saythesum.core.grids.starters import DEFAULT, STARTERS
from saythesum.wording.for_adults.said_grids import kinds_said
from saythesum.wording.speak.exercises.said_exercises import words_of


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "grid",
        help="show or check a grid file",
        description="A grid is a text file of two lines or more, for example:\n\n"
        "  add   = [5, 8, 3]\n  start = [47, 59, 36]\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="Example: saythesum grid check ferry.toml",
    )
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", required=True)
    shown = kinds.add_parser(
        "show",
        help="print a grid's sums and answers, or the starter grids",
        description="Print the sums of a grid with their answers.",
        epilog="Example: saythesum grid show ferry.toml",
    )
    _add_grid_file(shown, "a grid file or a starter grid's name; without it all starter grids are shown", nargs="?")
    shown.set_defaults(run=lambda options: show_grid(options.file))
    add_grid_make(kinds)
    checked = kinds.add_parser(
        "check",
        needs="FILE",
        help="say whether a grid is right",
        description="Say whether a grid is right and what kinds of sums are in it, or what is wrong, line by line.",
        epilog="Example: saythesum grid check ferry.toml",
    )
    _add_grid_file(checked, "a grid file")
    checked.set_defaults(run=lambda options: check_grid(options.file))


def _add_grid_file(verb: argparse.ArgumentParser, about: str, nargs: str | None = None) -> None:
    verb.add_argument_group("which").add_argument("file", metavar="FILE", type=Path, nargs=nargs, help=about)


def show_grid(file: Path | None) -> None:
    if file is None:
        _show_starters()
        return
    grid = grid_in(file)
    for line in _table(grid):
        show(line)


def check_grid(file: Path) -> None:
    """Raises GridError, with every problem in the file."""
    grid = grid_in(file)
    show(f"{file} is right: {grid.title}.")
    for line in kinds_said(about(grid)):
        show(line)


def _show_starters() -> None:
    show("Starter grids, in the order schools teach them:")
    for starter in STARTERS:
        show("")
        show(f"{starter.grid.title} ({starter.name}). {starter.why}")
        for line in _rows(starter.grid):
            show(line)
    show("")
    show(f"One is practised by its name: saythesum practise --grid {STARTERS[0].name}")
    show(f"Where none is named, practising begins with {DEFAULT.grid.title}.")


def _table(grid: Grid) -> Iterator[str]:
    yield grid.title
    if grid.is_one_by_one:
        yield from _rows(grid)
        yield from kinds_said(about(grid))
        return
    yield f"Along the top, {'; '.join(_columns(grid))}"
    yield from _rows(grid)
    yield from kinds_said(about(grid))


def _columns(grid: Grid) -> Iterator[str]:
    columns = [grid.exercise_at(Cell(0, column)) for column in range(len(grid.amounts))]
    for says, alike in groupby(columns, key=lambda one: one.operator.says):
        yield f"{says}: {', '.join(str(one.amount) for one in alike)}"


def _rows(grid: Grid) -> Iterator[str]:
    if grid.is_one_by_one:
        for asked in map(grid.exercise_at, walk(replace(grid, order=Order.ROWS), 0)):
            yield f"{words_of(asked).whole(asked, str)}: {asked.total}"
        return
    for row, start in enumerate(grid.starts):
        cells = (grid.exercise_at(Cell(row, column)) for column in range(len(grid.amounts)))
        yield f"Row {start}: " + ", ".join(f"{words_of(one).in_row(one, str)} is {one.total}" for one in cells)
