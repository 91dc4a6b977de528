"""Files that belong together: all of them are written, or none."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from saythesum.errors import CallerError


@contextmanager
def whole_folder(into: Path) -> Iterator[Path]:
    """A scratch folder, whose files stand in `into` when it is left without an error; those of the same names are
    replaced. Raises CallerError where it cannot be written."""
    try:
        into.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(dir=into, prefix=".part-") as scratch:
            yield Path(scratch)
            for file in sorted(Path(scratch).iterdir()):
                os.replace(file, into / file.name)
    except OSError as error:
        raise CallerError(
            f"The folder {into} cannot be written ({error.strerror}): name another after --into."
        ) from error
