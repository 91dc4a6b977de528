"""What on this machine other people could read, or an earlier version left behind: a sentence each, for the adult."""

import os
import shlex
import stat
from collections.abc import Iterator
from pathlib import Path

from platformdirs import user_cache_path

from saythesum.app.setup.folders import HOME_VARIABLE, Places

ENTER = stat.S_IXGRP | stat.S_IXOTH
_TELEMETRY_FOLDER = Path("Microsoft", "DeveloperTools", ".onnxruntime")
"""Within the user's cache folder, on Linux. Found by tracing onnxruntime 1.32.0."""


def open_to_others(own: Places) -> str | None:
    """None where nobody else can look into the folders of the records, the settings and the phrases."""
    if os.name != "posix":
        return None
    folders = dict.fromkeys((own.data, own.settings_file.parent, own.cache))
    opened = [folder for folder in _not_inside_another(folders) if _lets_others_in(folder)]
    if not opened:
        return None
    names = " and ".join(map(str, opened))
    command = shlex.join(["chmod", "700", *map(str, opened)])
    return (
        f"Other people who use this computer can look into {names}, where the records or settings are: "
        f"`{command}` ends that, or set {HOME_VARIABLE} to a folder of your own."
    )


def left_by_telemetry() -> str | None:
    """onnxruntime's own, from before we turned it off; or another program's that uses the library."""
    folder = user_cache_path() / _TELEMETRY_FOLDER
    if not folder.is_dir():
        return None
    return (
        "The library onnxruntime once kept a device id and a list of events for its maker, here or in another program: "
        f"they are in {folder}, and `{shlex.join(['rm', '-r', str(folder)])}` removes them."
    )


def _not_inside_another(folders: dict[Path, None]) -> Iterator[Path]:
    """A closed folder closes what is in it."""
    for folder in folders:
        if not any(folder != other and folder.is_relative_to(other) for other in folders):
            yield folder


def _lets_others_in(folder: Path) -> bool:
    try:
        path_in = [_rights_of_others(above) & ENTER for above in folder.resolve().parents]
        return all(path_in) and _rights_of_others(folder) != 0
    except OSError:
        return False  # it is not there yet


def _rights_of_others(folder: Path) -> int:
    """A group with its user's own number has nobody else in it (common practice: user private groups)."""
    found = folder.stat()
    of_group = stat.S_IRWXG if found.st_gid != found.st_uid else 0
    return found.st_mode & (of_group | stat.S_IRWXO)
