"""The grid that is asked for by a file or a name."""

from pathlib import Path

from saythesum.app.setup.folders import own_places
from saythesum.core.grids.file_format import grid_from
from saythesum.core.grids.grid import Grid
from saythesum.core.grids.starters import DEFAULT, starter_named
from saythesum.errors import CallerError, GridError
from saythesum.settings.text_files import text_in


def grid_in(file: Path) -> Grid:
    """The grid in the file, or the starter grid or saved grid of that name if there is no such file.

    Raises GridError: there is neither, the file cannot be read, or it does not hold a grid.
    """
    try:
        text = text_in(file, "add = [3, 5, 8]")
    except FileNotFoundError as error:
        if starter := starter_named(str(file)):
            return starter
        if (saved := own_places().grids / f"{file}.toml").is_file() and file.name == str(file):
            return grid_in(saved)
        right = f"name one that is there, or a starter grid, such as {DEFAULT.name}"
        raise GridError(f"There is no grid file {file}: {right}.") from error
    except CallerError as error:
        raise GridError(f"{file} {error}") from error
    try:
        return grid_from(text)
    except GridError as error:
        raise GridError(f"{file}: {error}") from error
