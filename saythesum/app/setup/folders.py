"""Where things live on this machine."""

import os
import sys
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from platformdirs import PlatformDirs

import saythesum
from saythesum.errors import CallerError
from saythesum.settings.shipped_files import audio_folder, models_folder
from saythesum.store.lock import DESK_LOCK_NAME, LOCK_NAME

HOME_VARIABLE = "SAYTHESUM_HOME"
BESIDE_NAME = "saythesum-data"
"""A folder of this name beside the program keeps everything in it, on a memory stick for instance."""


@dataclass(frozen=True, slots=True)
class Places:
    """None of these need exist yet: each is made when something is first written there."""

    data: Path
    settings_file: Path
    cache: Path
    models: Path

    @property
    def records_file(self) -> Path:
        return self.data / "records.sqlite"

    @property
    def newest_rows_file(self) -> Path:
        """Folded into the records when a practice ends. Source: SQLite's documentation, "Write-Ahead Logging"."""
        return self.records_file.with_name(f"{self.records_file.name}-wal")

    @property
    def for_rescue(self) -> tuple[Path, ...]:
        """Where answers are kept when the records are lost in the middle of a practice, the nearest place first."""
        near = [self.data, self.data.parent]
        with suppress(RuntimeError):  # a user without a home
            near.append(Path.home())
        return (*near, Path(tempfile.gettempdir()))

    def pupil_file(self, code: str) -> Path:
        """The pupil's own settings. With their practices in the records, their snapshots and their own words it is all
        that is kept of a pupil: whoever erases one of them erases the others."""
        return self.data / "pupils" / f"{code}.toml"

    def words_file(self, code: str) -> Path:
        """How the pupil says the number words: there with consent only."""
        return self.pupil_file(code).with_suffix(".words")

    @property
    def grids(self) -> Path:
        """The adult's own grids, one file each."""
        return self.data / "grids"

    @property
    def plans(self) -> Path:
        """Plans of the week, one file each."""
        return self.data / "plans"

    def snapshots(self, code: str) -> Path:
        """The folder for what is known of the pupil after so many practices; it follows from the records."""
        return self.cache / "known" / code

    @property
    def one_folder(self) -> Path | None:
        """The folder that everything lives in, where there is one."""
        return self.data if self.settings_file.parent == self.data else None

    @property
    def desk(self) -> Path:
        """What leads into the desk while it is open: its address, and a file for each time that it is opened."""
        return self.cache / "desk"

    def is_ours(self, file: Path) -> bool:
        """Whether the program reads or writes that file itself, under whatever name it is called here."""
        real = file.resolve()
        program = Path(saythesum.__file__).parent
        folders = (
            *(self.data / "pupils", self.grids, self.plans, self.cache, self.models),
            *(program, audio_folder(), models_folder()),
        )
        # SQLite keeps more of each beside it, with longer names
        beside = (self.records_file.name, LOCK_NAME, DESK_LOCK_NAME)
        return (
            any(real.is_relative_to(folder.resolve()) for folder in folders)
            or (real.parent == self.data.resolve() and real.name.startswith(beside))
            or any(_is_same(real, known) for known in (self.records_file, self.settings_file))
        )


def _is_same(one: Path, other: Path) -> bool:
    return one == other.resolve() or (one.exists() and other.exists() and one.samefile(other))


def places(environment: Mapping[str, str], programs: tuple[Path, ...]) -> Places:
    """`programs`: the folders that count as beside the program, the most likely first.

    Raises CallerError where SAYTHESUM_HOME names a file, and where the place cannot be looked into.
    """
    try:
        found = _found(environment, programs)
        for inside in (found.records_file, found.settings_file, found.models):
            inside.exists()
    except OSError as error:
        problem = f"{error.filename} cannot be looked at ({error.strerror})"
        raise CallerError(f"{problem}: set {HOME_VARIABLE} to a folder that can be read and written.") from error
    return found


def _found(environment: Mapping[str, str], programs: tuple[Path, ...]) -> Places:
    home = environment.get(HOME_VARIABLE, "").strip()
    if home:
        return _all_in(_folder_named(home))
    for folder in programs:
        if (folder / BESIDE_NAME).is_dir():
            return _all_in((folder / BESIDE_NAME).absolute())
    platform = PlatformDirs("saythesum", appauthor=False)
    return Places(
        data=platform.user_data_path,
        settings_file=platform.user_config_path / "settings.toml",
        cache=platform.user_cache_path,
        models=platform.user_data_path / "models",
    )


def program_folders() -> tuple[Path, ...]:
    """Those of the command as it was called, of the file behind that link, and of a checkout if it runs from one."""
    command = Path(sys.argv[0]).absolute()
    package = Path(__file__).resolve().parents[2]
    folders = [command.parent, command.resolve().parent]
    if (package.parent / "pyproject.toml").is_file():
        folders.append(package.parent)
    return tuple(dict.fromkeys(folders))


def _folder_named(home: str) -> Path:
    try:
        folder = Path(home).expanduser().absolute()
    except RuntimeError as error:
        raise CallerError(f"{HOME_VARIABLE} is {home!r}, and no such user is known: name a folder.") from error
    if folder.exists() and not folder.is_dir():
        raise CallerError(f"{HOME_VARIABLE} is {home!r}, which is not a folder: name one, it is made when needed.")
    return folder


def _all_in(home: Path) -> Places:
    return Places(data=home, settings_file=home / "settings.toml", cache=home / "cache", models=home / "models")


def has_display() -> bool:
    """Without a display pygame would draw to nowhere, without an error."""
    names = ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")
    return not sys.platform.startswith("linux") or any(os.environ.get(name) for name in names)


def own_places() -> Places:
    return places(os.environ, program_folders())
