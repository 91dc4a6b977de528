from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple, Protocol
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, Purpose, Row
from saythesum.settings import Settings


@dataclass(frozen=True, slots=True)
class StoredActivity:
    aim: Aim
    grid_text: str
    """The grid in its own file format."""
    cells: tuple[Cell, ...] | None = None
    """The cells that are asked, in their order; None: all of the grid's, in the grid's own."""


@dataclass(frozen=True, slots=True)
class StoredPractice:
    """A practice as it was saved when it started, with the rows kept so far in order."""

    id: UUID
    pupil: str
    began_at: str
    """UTC, ISO 8601."""
    grid_text: str
    """The grid in its own file format."""
    seed: int
    settings: Settings
    program_version: str
    aim: Aim = Aim.PRACTISE
    cells: tuple[Cell, ...] | None = None
    """The cells that are asked, in their order; None: all of the grid's, in the grid's own."""
    then: tuple[StoredActivity, ...] = ()
    """What is done in it after this first activity, in order."""
    rows: tuple[Row, ...] = ()
    left_aside: tuple[str, ...] = ()
    """A sentence for each kept row that cannot be read, and is not among the rows."""
    owners: tuple[str, ...] = ()
    """Whose each of the rows is, where a part of the practice was moved to another pupil."""

    @property
    def activities(self) -> tuple[StoredActivity, ...]:
        return (StoredActivity(self.aim, self.grid_text, self.cells), *self.then)

    @property
    def is_from_paper(self) -> bool:
        """Answers typed in from a sheet: it is over, and never gone on with."""
        return any(isinstance(row, Answer) and row.purpose is Purpose.PAPER for row in self.rows)

    def rows_of(self, pupil: str) -> tuple[Row, ...]:
        """Those of the rows that are this pupil's."""
        if not self.owners:
            return self.rows
        return tuple(row for row, owner in zip(self.rows, self.owners, strict=True) if owner == pupil)


class EarlierPractice(NamedTuple):
    id: UUID
    rows: int
    """How many are kept of it."""


class Keeper(Protocol):
    """All that a running practice needs of the records."""

    def keep(self, practice: UUID, row: Row, *, at: str, at_ms: int) -> None:
        """On disk when it returns. `at` is UTC, ISO 8601. Raises StoreError."""


class Store(Keeper, Protocol):
    """Every method raises StoreError when the records cannot be read or written."""

    def begin(self, practice: StoredPractice) -> None:
        """Save a practice that has no rows yet."""

    def unfinished(
        self,
        pupil: str,
        *,
        aim: Aim | None = None,
        grid_text: str | None = None,
        fits: Callable[[StoredPractice], bool] | None = None,
    ) -> StoredPractice | None:
        """The pupil's newest practice that has not been finished.

        Where they are given, only one of this aim, of this very grid, and one that fits.
        """

    def practices(self, pupil: str, *, aim: Aim | None = None) -> Sequence[UUID]:
        """Oldest first. Where it is given, only those of this aim."""

    def practice(self, id: UUID) -> StoredPractice: ...

    def earlier(self, practice: UUID, *, last: int | None = None) -> Sequence[EarlierPractice]:
        """The same pupil's practices before this one, oldest first; the last few of them where that is given."""

    def close(self) -> None: ...
