"""What was worked out of a pupil's rows: it goes whenever these change under it, and is worked out anew."""

import shutil

from saythesum.errors import CallerError
from saythesum.office.places import Places


def drop_snapshots(places: Places, code: str) -> bool:
    """Whether there were any. Raises CallerError."""
    folder = places.snapshots(code)
    if not folder.exists():
        return False
    try:
        shutil.rmtree(folder)
    except OSError as error:
        raise CallerError(f"{folder} cannot be removed ({error.strerror}): make it writable.") from error
    return True
