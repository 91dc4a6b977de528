"""The adult's own grids: made from a wish, saved, copied, renamed, put away, taken in and given out."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import AboutGrid, Grid, about
from saythesum.core.grids.starters import STARTERS, starter_named
from saythesum.core.grids.telling_apart import Shown, shown_by
from saythesum.core.grids.wishes import CannotBeMade, GridWish, MadeGrid, made
from saythesum.errors import CallerError, GridError
from saythesum.office.places import Places
from saythesum.settings.changing import replace_file
from saythesum.settings.text_files import text_in
from saythesum.settings.toml_text import rather, shown
from saythesum.store.file_names import DEVICES

EXAMPLE = "add = [3, 5, 8]"
_NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,39}")
_AWAY = "put-away"
WORDS_OF_A_PLAN = frozenset(
    {"choice", "probe", "find-out", "patterns", "facts", *(facts.name for facts in FACT_ACTIVITIES)}
)
"""What a plan means by these is no grid."""


@dataclass(frozen=True, slots=True)
class GridCard:
    name: str
    grid: Grid | None
    """None where the file cannot be read."""
    problem: str | None
    is_starter: bool
    is_put_away: bool


@dataclass(frozen=True, slots=True)
class GridFacts:
    about: AboutGrid
    shown: Shown
    """What it can and cannot tell apart."""


def list_grids(places: Places, *, put_away: bool = False) -> tuple[GridCard, ...]:
    """Own grids by name, then the starter grids in the order of teaching."""
    own = [_card(file, is_put_away=False) for file in _files(places.grids)]
    away = [_card(file, is_put_away=True) for file in _files(places.grids / _AWAY)] if put_away else []
    starters = [GridCard(one.name, one.grid, None, is_starter=True, is_put_away=False) for one in STARTERS]
    return (*own, *away, *starters)


def facts(grid: Grid) -> GridFacts:
    return GridFacts(about(grid), shown_by(grid))


def numbers_in(text: str) -> tuple[int, ...]:
    """Of "20-60" or "37, 48, 59". Raises CallerError whose text is what would be right, without a full stop."""
    numbers: list[int] = []
    for part in text.replace("–", "-").replace(" to ", "-").split(","):
        first, to, last = (one.strip() for one in part.partition("-"))
        if not first.isdecimal() or (to and not last.isdecimal()) or len(part) > 12:
            raise CallerError("numbers, such as 20-60 or 37,48,59")
        numbers += range(int(first), min(int(last if to else first), 9_999) + 1)
    return tuple(numbers)


def make_grid(wish: GridWish, seed: int) -> MadeGrid | CannotBeMade:
    """Nothing is saved."""
    return made(wish, seed)


def open_grid(places: Places, given: str) -> Grid:
    """An own grid or a starter, by name. Raises GridError."""
    name = grid_name(given)
    file = _file(places, name)
    if not file.exists():
        if starter := starter_named(name):
            return starter
        known = [card.name for card in list_grids(places)]
        raise GridError(f"There is no grid {name}; {rather(name, known)}")
    return _read(file)


def save_grid(places: Places, given: str, grid: Grid, *, over: bool = False) -> Path:
    """Where it is. Raises GridError for a name that is taken, unless it is to be written over."""
    file = _file(places, _new_name(places, given, over=over))
    _ = grid_from(text_of(grid))  # what cannot be read again is not written
    try:
        replace_file(file, text_of(grid))
    except OSError as error:
        raise GridError(f"The grid file {file} cannot be written ({error.strerror}).") from error
    return file


def copy_grid(places: Places, given: str, to: str, title: str | None = None) -> Path:
    grid = open_grid(places, given)
    return save_grid(places, to, replace(grid, title=title) if title else grid)


def rename_grid(places: Places, given: str, to: str) -> Path:
    """The name, not the title. Raises GridError."""
    source, target = _own_file(places, given), _file(places, _new_name(places, to))
    return _moved(source, target)


def put_grid_away(places: Places, given: str) -> Path:
    """Out of the list, with nothing lost. Raises GridError."""
    source = _own_file(places, given)
    return _moved(source, _free(places.grids / _AWAY, source.stem))


def bring_grid_back(places: Places, given: str) -> Path:
    name = grid_name(given)
    source = places.grids / _AWAY / f"{name}.toml"
    if not source.exists():
        raise GridError(f"No grid {name} was put away.")
    return _moved(source, _file(places, _new_name(places, name)))


def take_grid_in(places: Places, file: Path, given: str | None = None, *, over: bool = False) -> Path:
    """A file from elsewhere, as it was typed; by the file's own name unless another is given. Raises GridError."""
    text = _text(file)
    _ = _grid(file, text)
    name = given or re.sub(r"[^a-z0-9]+", "-", file.stem.lower()).strip("-")[:40]
    target = _file(places, _new_name(places, name, over=over))
    try:
        replace_file(target, text)
    except OSError as error:
        raise GridError(f"The grid file {target} cannot be written ({error.strerror}).") from error
    return target


def give_grid_out(places: Places, given: str, into: Path) -> Path:
    """Into a folder, or a file that is not there yet. Raises GridError."""
    grid = open_grid(places, given)
    target = into / f"{grid_name(given)}.toml" if into.is_dir() else into
    if target.exists():
        raise GridError(f"There is a file {target} already: name another, or move it away first.")
    try:
        replace_file(target, text_of(grid))
    except OSError as error:
        raise GridError(f"The grid file {target} cannot be written ({error.strerror}).") from error
    return target


def grid_texts(places: Places) -> dict[str, str]:
    """The text of each own grid that can be read, those that were put away not among them."""
    return {
        card.name: _text(_file(places, card.name)) for card in list_grids(places) if card.grid and not card.is_starter
    }


def _files(folder: Path) -> Iterator[Path]:
    if folder.is_dir():
        yield from (file for file in sorted(folder.glob("*.toml")) if _NAME.fullmatch(file.stem))


def _card(file: Path, *, is_put_away: bool) -> GridCard:
    try:
        return GridCard(file.stem, _read(file), None, is_starter=False, is_put_away=is_put_away)
    except GridError as error:
        return GridCard(file.stem, None, str(error), is_starter=False, is_put_away=is_put_away)


def _read(file: Path) -> Grid:
    return _grid(file, _text(file))


def _text(file: Path) -> str:
    try:
        return text_in(file, EXAMPLE)
    except FileNotFoundError as error:
        raise GridError(f"There is no grid file {file}.") from error
    except CallerError as error:
        raise GridError(f"{file} {error}") from error


def _grid(file: Path, text: str) -> Grid:
    try:
        return grid_from(text)
    except GridError as error:
        raise GridError(f"{file}: {error}") from error


def grid_name(given: str) -> str:
    name = given.strip().lower()
    if not _NAME.fullmatch(name) or name in DEVICES or name == _AWAY:
        raise GridError(
            f"The grid's name {shown(given)} must be 1 to 40 letters a to z, digits and hyphens, "
            "beginning with a letter or a digit, for example harbour-2."
        )
    return name


def _new_name(places: Places, given: str, *, over: bool = False) -> str:
    name = grid_name(given)
    if name in WORDS_OF_A_PLAN:
        raise GridError(f"{name} means something else in a plan; choose another name, for example {name}-2.")
    if starter_named(name):
        raise GridError(f"{name} is the name of a starter grid; choose another, for example {name[:36]}-2.")
    if not over and _file(places, name).exists():
        raise GridError(f"There is a grid {name} already; choose another name, for example {name[:36]}-2.")
    return name


def _file(places: Places, name: str) -> Path:
    return places.grids / f"{name}.toml"


def _own_file(places: Places, given: str) -> Path:
    name = grid_name(given)
    if not _file(places, name).exists():
        if starter_named(name):
            raise GridError(f"{name} is a starter grid and stays as it is: copy it, and change the copy.")
        raise GridError(f"There is no grid {name}; {rather(name, [card.name for card in list_grids(places)])}")
    return _file(places, name)


def _free(folder: Path, name: str) -> Path:
    number = 1
    while (target := folder / (f"{name}.toml" if number == 1 else f"{name}-{number}.toml")).exists():
        number += 1
    return target


def _moved(source: Path, target: Path) -> Path:
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        source.rename(target)
    except OSError as error:
        raise GridError(f"{source} cannot be moved to {target} ({error.strerror}).") from error
    return target
