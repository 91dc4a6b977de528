"""A grid as a teacher types it, in TOML:

    title = "Seats on the ferry"
    add   = [5, 8, 3]     # along the top, 1 to 9; take = [5, 8] for taking away
    start = [47, 59, 36]  # down the side, 0 to 999
    order = "rows"        # rows, columns or shuffled

Each offered operation has a list of its own; the columns come in the order in which the lists are written.

Without a title the grid is named by its numbers; without an order it goes by rows. A number that stands twice in
a list is taken as it is: a row may be wanted twice.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

import tomlkit

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.registry import of_column, offered
from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.sums import LARGEST_START
from saythesum.errors import CallerError, GridError
from saythesum.settings.toml_text import Typed, first_of, rather, shown, shown_name, typed

MOST_ROWS = MOST_COLUMNS = 20
LONGEST_TITLE = 60


def grid_from(text: str, *, most_rows: int = MOST_ROWS) -> Grid:
    """Raises GridError with every problem found, one sentence a line, in the order of the text."""
    try:
        written = typed(text, "add = [3, 5, 8]")
    except CallerError as error:
        raise GridError(str(error)) from error
    return _Reading(written, most_rows).grid()


def text_of(grid: Grid) -> str:
    """What `grid_from` reads as the same grid."""
    columns: dict[str, list[int]] = {}
    for column, amount in enumerate(grid.amounts):
        columns.setdefault(grid.exercise_at(Cell(0, column)).operation, []).append(amount)
    return tomlkit.dumps({"title": grid.title, **columns, "start": list(grid.starts), "order": grid.order.value})


@dataclass(frozen=True, slots=True)
class _Numbers:
    """What one of the two lists may hold."""

    name: str
    one: str
    lowest: int
    highest: int
    most: int
    lines: str
    """What each number makes in the grid."""
    example: str

    def fits(self, value: object) -> bool:
        return type(value) is int and self.lowest <= value <= self.highest  # not isinstance: True is no number


def _amounts_of(operation: str) -> _Numbers:
    amounts = offered()[operation].amounts
    return _Numbers(operation, "an amount", amounts[0], amounts[-1], MOST_COLUMNS, "columns", "[3, 5, 8]")


_START = _Numbers("start", "a start", 0, LARGEST_START, MOST_ROWS, "rows", "[38, 57]")


class _Reading:
    """Reads one grid, going on after each problem so that all are reported at once."""

    def __init__(self, written: Typed, most_rows: int) -> None:
        self._written = written
        self._starts = replace(_START, most=most_rows)
        self._problems: list[tuple[int, str]] = []
        self._missing: list[str] = []

    def grid(self) -> Grid:
        meant = self._wrong_names()
        columns = self._columns(meant)
        starts = self._numbers(self._starts, is_meant="start" in meant)
        self._cells(columns, starts)
        title = self._title()
        order = self._order()
        if self._problems or self._missing:
            in_order = sorted(self._problems, key=lambda problem: problem[0])
            told = [f"Line {line}: {sentence}" for line, sentence in in_order]
            raise GridError("\n".join((*first_of(told), *self._missing)))
        operations = () if set(columns) <= {Sum.operation} else _each(columns)
        amounts = tuple(amount for numbers in columns.values() for amount in numbers)
        return Grid(title or _by_its_numbers(starts, columns), tuple(starts), amounts, order, operations)

    def _columns(self, meant: set[str]) -> dict[str, Sequence[int]]:
        """By operation, in the order of the text."""
        written = [name for name in self._written.values if name in offered()] or [Sum.operation]
        return {name: self._numbers(_amounts_of(name), is_meant=name in meant) for name in written}

    def _cells(self, columns: Mapping[str, Sequence[int]], starts: Sequence[int]) -> None:
        """Numbers that are right each by itself may make a question that cannot be asked."""
        if self._problems or self._missing:
            return
        for operation, numbers in columns.items():
            for (row, start), (place, amount) in product(enumerate(starts), enumerate(numbers)):
                try:
                    of_column(operation, start, amount)
                except CallerError as error:
                    self._tell(f"Row {start} (number {row + 1}), {operation} {amount}: {error}", operation, place)

    def _tell(self, sentence: str, *path: str | int) -> None:
        self._problems.append((self._written.line_of(*path), sentence))

    def _wrong_names(self) -> set[str]:
        """The known names that unknown ones probably stand for: these are not reported as missing."""
        meant: set[str] = set()
        names = ("title", *offered(), "start", "order")
        for name in self._written.values:
            if name in names:
                continue
            if name == "sums":
                self._tell(_instead_of_sums(self._written.values[name]), name)
                meant |= {"add", "start"}
                continue
            instead = rather(name, names)
            self._tell(f"{shown_name(name)} is not a name in a grid file; {instead}", name)
            meant |= {known for known in names if instead == f"did you mean {known}?"}
        return meant

    def _numbers(self, wanted: _Numbers, *, is_meant: bool) -> Sequence[int]:
        name = wanted.name
        if name not in self._written.values:
            if not is_meant:
                self._missing.append(f"{name} is missing; write for example {name} = {wanted.example}.")
            return ()
        numbers = self._written.values[name]
        if not isinstance(numbers, list):
            self._tell(f"{name} has {shown(numbers)}; it is a list, such as {wanted.example}.", name)
            return ()
        if not numbers:
            self._tell(f"{name} is empty; it needs a number at least, such as {wanted.example}.", name)
        if len(numbers) > wanted.most:
            count = f"{name} has {len(numbers)} numbers"
            self._tell(f"{count}; a grid has at most {wanted.most} {wanted.lines}.", name)
            return ()
        for place, number in enumerate(numbers):
            if not wanted.fits(number):
                right = f"{wanted.one} is a whole number from {wanted.lowest} to {wanted.highest}"
                self._tell(f"{name} has {shown(number)}; {right}.", name, place)
        return numbers

    def _title(self) -> str:
        """Line breaks, tabs and runs of spaces count as one space. Empty where there is none."""
        title = self._written.values.get("title", "")
        if not isinstance(title, str):
            self._tell(f'title has {shown(title)}; it is words in quotes, such as "At the bakery".', "title")
            return ""
        title = " ".join(title.split())
        if len(title) > LONGEST_TITLE:
            length = f"title has {len(title)} characters"
            self._tell(f"{length}; a title has at most {LONGEST_TITLE}.", "title")
        unseen = next((letter for letter in title if not letter.isprintable()), None)
        if unseen is not None:
            hidden = f"title has a hidden character (U+{ord(unseen):04X})"
            self._tell(f"{hidden}; it is words in quotes that can be seen and read aloud.", "title")
        return title

    def _order(self) -> Order:
        order = self._written.values.get("order", Order.ROWS.value)
        if isinstance(order, str) and order in {known.value for known in Order}:
            return Order(order)
        self._tell(f'order has {shown(order)}; it is "rows", "columns", "shuffled" or "chosen".', "order")
        return Order.ROWS


def _instead_of_sums(listed: object) -> str:
    """A list of sums is told as the grid that has them, where they can be read."""
    texts = [text for text in listed if isinstance(text, str)] if isinstance(listed, list) else []
    pairs = [found.groups() for text in texts if (found := re.fullmatch(r"\s*(\d{1,3})\s*\+\s*([1-9])\s*", text))]
    starts = ", ".join(dict.fromkeys(start for start, _ in pairs)) or "38, 47"
    amounts = ", ".join(dict.fromkeys(amount for _, amount in pairs)) or "5, 8"
    return f"sums is a list, and a grid has starts and amounts; write start = [{starts}] and add = [{amounts}]."


def _each(columns: Mapping[str, Sequence[int]]) -> tuple[str, ...]:
    """The operation of each column."""
    return tuple(operation for operation, numbers in columns.items() for _ in numbers)


def _by_its_numbers(starts: Sequence[int], columns: Mapping[str, Sequence[int]]) -> str:
    done = [f"{offered()[operation].operator.says} {_span(amounts)}" for operation, amounts in columns.items()]
    return f"{_span(starts)} {', '.join(done)}"


def _span(numbers: Sequence[int]) -> str:
    lowest, highest = min(numbers), max(numbers)
    return f"{lowest}" if lowest == highest else f"{lowest} to {highest}"
