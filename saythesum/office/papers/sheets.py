"""Sheets by their codes, and the answers that come back on paper."""

from dataclasses import dataclass
from datetime import datetime

from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError
from saythesum.office.places import Places
from saythesum.reports.sheets.code import COUNT, LETTERS, code_number, code_of, is_code
from saythesum.reports.sheets.sheet import Sheet
from saythesum.settings.toml_text import shown
from saythesum.store.beside.entries import Entry, add_entries, entries_in
from saythesum.store.beside.entry_tables import Table
from saythesum.store.reading import kept_grid


@dataclass(frozen=True, slots=True)
class KeptSheet:
    code: str
    grid: Grid
    pupil: str
    at: str
    """UTC, ISO 8601: when it was made last."""

    @property
    def cells(self) -> tuple[Cell, ...]:
        """In the order in which its answers are typed in."""
        return Sheet(self.code, self.grid).cells


def code_for(places: Places, grid: Grid) -> str:
    """The code of this grid's sheets: the same grid has the same code."""
    text = text_of(grid)
    taken = {entry.fields["code"]: entry.fields["grid"] for entry in entries_in(places.records_file, Table.SHEETS)}
    first = code_number(text)
    free = (code_of(number) for number in range(first, first + COUNT))
    return next(code for code in free if taken.get(code, text) == text)


def keep_sheet(places: Places, pupil: str, code: str, grid: Grid, now: datetime) -> None:
    """That the sheet was made, so that its code leads back to its grid."""
    fields = {"code": code, "grid": text_of(grid)}
    add_entries(places.records_file, {Table.SHEETS: [Entry(pupil, utc_text(now), fields)]})


def sheet_of(places: Places, given: str) -> KeptSheet:
    """The newest of that code. Raises CallerError where there is none."""
    code = given.strip().lower()
    if not is_code(code):
        raise CallerError(
            f"{shown(given)} is no sheet's code, or a letter of it is wrong: it is five of the letters "
            f"{', '.join(LETTERS)}, at the top of the sheet."
        )
    made = [entry for entry in entries_in(places.records_file, Table.SHEETS) if entry.fields["code"] == code]
    if not made:
        raise CallerError(f"No sheet {code} was made here: type its answers in where it was made.")
    newest = made[-1]
    return KeptSheet(code, kept_grid(newest.fields["grid"]), newest.pupil, newest.at)
