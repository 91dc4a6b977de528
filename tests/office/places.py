"""A home for a test."""

from pathlib import Path

from saythesum.app.setup.folders import Places, places


def home_in(folder: Path) -> Places:
    return places({"SAYTHESUM_HOME": str(folder)}, ())
