"""A grid as a teacher types it, in TOML:

    title = "Seats on the ferry"
    add   = [5, 8, 3]     # along the top, 1 to 99; take = [5, 8] for taking away
    start = [47, 59, 36]  # down the side, 0 to 999
    order = "rows"        # rows, columns or shuffled

Each offered operation has a list of its own; the columns come in the order in which the lists are written. With
hidden = "amount" or "start" that number is asked for, and the total is said.

In place of add, take and start there may be a list of sums:

    sums  = ["38+5", "52-7", "47+?=52"]

Without a title the grid is named by its numbers; without an order it goes by rows, and where a number is hidden it is
shuffled, as all sums of a column or a row have the same answer then. A number that stands twice in a list is taken as
it is: a row may be wanted twice.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

import tomlkit

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.exercise import Exercise
from saythesum.core.exercises.registry import in_columns, of_column, offered
from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.grids.written_sums import exercise_from, text_of_sum
from saythesum.core.sums import LARGEST_START, Hidden
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
    if grid.listed:
        sums = [text_of_sum(asked) for asked in grid.listed]
        return tomlkit.dumps({"title": grid.title, "sums": sums, "order": grid.order.value})
    columns: dict[str, list[int]] = {}
    for column, amount in enumerate(grid.amounts):
        columns.setdefault(grid.exercise_at(Cell(0, column)).operation, []).append(amount)
    hidden = {} if grid.hidden is Hidden.TOTAL else {"hidden": grid.hidden.value}
    starts = list(grid.starts)
    return tomlkit.dumps({"title": grid.title, **columns, "start": starts, **hidden, "order": grid.order.value})


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
    amounts = in_columns()[operation].amounts
    return _Numbers(operation, "an amount", amounts[0], amounts[-1], MOST_COLUMNS, "columns", "[3, 5, 8]")


_SUMS = '["38+5", "52-7"]'
_START = _Numbers("start", "a start", 0, LARGEST_START, MOST_ROWS, "rows", "[38, 57]")


class _Reading:
    """Reads one grid, going on after each problem so that all are reported at once."""

    def __init__(self, written: Typed, most_rows: int) -> None:
        self._written = written
        self._starts = replace(_START, most=most_rows)
        self._problems: list[tuple[int, str]] = []
        self._missing: list[str] = []

    def grid(self) -> Grid:
        if "sums" in self._written.values:
            return self._list()
        meant = self._wrong_names(("title", *offered(), "start", "hidden", "order"), passed_over=tuple(in_columns()))
        columns = self._columns(meant)
        starts = self._numbers(self._starts, is_meant="start" in meant)
        hidden = self._hidden()
        self._cells(columns, starts, hidden)
        title = self._title()
        order = self._order(Order.ROWS if hidden is Hidden.TOTAL else Order.SHUFFLED)
        self._refuse()
        operations = () if set(columns) <= {Sum.operation} else _each(columns)
        amounts = tuple(amount for numbers in columns.values() for amount in numbers)
        return Grid(title or _by_its_numbers(starts, columns), tuple(starts), amounts, order, operations, hidden)

    def _list(self) -> Grid:
        of_grids = (*in_columns(), "start", "hidden")
        for name in of_grids:
            if name in self._written.values:
                self._tell(f"{name} does not go with sums; a grid has starts and amounts, a list has sums alone.", name)
        self._wrong_names(("title", "sums", "order"), passed_over=of_grids)
        sums = self._sums()
        title = self._title()
        order = self._order(Order.ROWS)
        self._refuse()
        return Grid(title or f"{len(sums)} sum{'' if len(sums) == 1 else 's'}", (), (), order, listed=sums)

    def _refuse(self) -> None:
        """Raises GridError if there is any problem."""
        if self._problems or self._missing:
            in_order = sorted(self._problems, key=lambda problem: problem[0])
            told = [f"Line {line}: {sentence}" for line, sentence in in_order]
            raise GridError("\n".join((*first_of(told), *self._missing)))

    def _sums(self) -> tuple[Exercise, ...]:
        written = self._written.values["sums"]
        if not isinstance(written, list):
            self._tell(f"sums has {shown(written)}; it is a list, such as {_SUMS}.", "sums")
            return ()
        if not written:
            self._tell(f"sums is empty; it needs a sum at least, such as {_SUMS}.", "sums")
        if len(written) > self._starts.most:
            self._tell(f"sums has {len(written)} sums; a list has at most {self._starts.most}.", "sums")
            return ()
        sums: list[Exercise] = []
        for place, text in enumerate(written):
            try:
                sums.append(exercise_from(text))
            except CallerError as error:
                self._tell(f"sums has {shown(text)}; {error}", "sums", place)
        return tuple(sums)

    def _hidden(self) -> Hidden:
        hidden = self._written.values.get("hidden", Hidden.TOTAL.value)
        if isinstance(hidden, str) and hidden in list(Hidden):
            return Hidden(hidden)
        self._tell(f'hidden has {shown(hidden)}; it is "amount" or "start".', "hidden")
        return Hidden.TOTAL

    def _columns(self, meant: set[str]) -> dict[str, Sequence[int]]:
        """By operation, in the order of the text."""
        written = [name for name in self._written.values if name in in_columns()] or [Sum.operation]
        return {name: self._numbers(_amounts_of(name), is_meant=name in meant) for name in written}

    def _cells(self, columns: Mapping[str, Sequence[int]], starts: Sequence[int], hidden: Hidden) -> None:
        """Numbers that are right each by itself may make a question that cannot be asked."""
        if self._problems or self._missing:
            return
        for operation, numbers in columns.items():
            for (row, start), (place, amount) in product(enumerate(starts), enumerate(numbers)):
                try:
                    of_column(operation, start, amount, hidden)
                except CallerError as error:
                    self._tell(f"Row {start} (number {row + 1}), {operation} {amount}: {error}", operation, place)

    def _tell(self, sentence: str, *path: str | int) -> None:
        self._problems.append((self._written.line_of(*path), sentence))

    def _wrong_names(self, names: tuple[str, ...], passed_over: tuple[str, ...] = ()) -> set[str]:
        """The known names that unknown ones probably stand for: these are not reported as missing."""
        meant: set[str] = set()
        for name in self._written.values:
            if name in names or name in passed_over:
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

    def _order(self, default: Order) -> Order:
        order = self._written.values.get("order", default.value)
        if isinstance(order, str) and order in {known.value for known in Order}:
            return Order(order)
        self._tell(f'order has {shown(order)}; it is "rows", "columns", "shuffled" or "chosen".', "order")
        return Order.ROWS


def _each(columns: Mapping[str, Sequence[int]]) -> tuple[str, ...]:
    """The operation of each column."""
    return tuple(operation for operation, numbers in columns.items() for _ in numbers)


def _by_its_numbers(starts: Sequence[int], columns: Mapping[str, Sequence[int]]) -> str:
    done = [f"{in_columns()[operation].operator.says} {_span(amounts)}" for operation, amounts in columns.items()]
    return f"{_span(starts)} {', '.join(done)}"


def _span(numbers: Sequence[int]) -> str:
    lowest, highest = min(numbers), max(numbers)
    return f"{lowest}" if lowest == highest else f"{lowest} to {highest}"
