"""Opening a practice: the settings, the records, and the grid that goes on or begins."""

import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from random import SystemRandom
from uuid import uuid4

from saythesum import __version__
from saythesum.app.clock import RealClock, utc_text
from saythesum.app.log import Log, LogFile
from saythesum.app.places import Places, places, program_folders
from saythesum.app.runner import Outlets, Runner
from saythesum.app.settings_file import own_settings
from saythesum.app.telling import tell
from saythesum.core.gridfile import grid_from, text_of
from saythesum.core.grids import Grid
from saythesum.core.starters import DEFAULT
from saythesum.dialogue.effects import Ear
from saythesum.dialogue.plan import planned
from saythesum.dialogue.progress import folded
from saythesum.dialogue.step import opened
from saythesum.errors import GridError
from saythesum.ports import Clock, Store, StoredPractice
from saythesum.settings import Settings
from saythesum.store.pupils import pupil_code
from saythesum.store.records import SqliteStore


@dataclass(frozen=True, slots=True)
class Wish:
    """What was asked for on the command line."""

    pupil: str
    grid_file: Path | None = None
    seed: int | None = None
    log_file: Path | None = None


def own_places() -> Places:
    return places(os.environ, program_folders())


def grid_in(file: Path) -> Grid:
    """Raises GridError: the file cannot be read, or what is in it is no grid."""
    try:
        text = file.read_text(encoding="utf-8-sig")
    except FileNotFoundError as error:
        raise GridError(f"There is no grid file {file}: name one that is there, or leave --grid out.") from error
    except IsADirectoryError as error:
        raise GridError(f"{file} is a folder: name a grid file in it.") from error
    except UnicodeDecodeError as error:
        raise GridError(f"{file} is not a text file in UTF-8: save it as plain text.") from error
    except OSError as error:
        raise GridError(f"{file} cannot be read ({error.strerror}).") from error
    try:
        return grid_from(text)
    except GridError as error:
        raise GridError(f"{file}: {error}") from error


@dataclass(frozen=True, slots=True)
class Setup:
    """What every way of practising stands on."""

    places: Places
    settings: Settings
    clock: Clock


def own_setup() -> Setup:
    own = own_places()
    return Setup(own, own_settings(own.settings_file), RealClock())


@contextmanager
def practice(
    wish: Wish, setup: Setup, ear: Ear, outlets: Outlets, *, has_headset: bool = False
) -> Iterator[Runner]:
    """A practice ready to begin or to go on; its records are closed whatever happens."""
    pupil = pupil_code(wish.pupil)
    grid = grid_in(wish.grid_file) if wish.grid_file else None
    clock = setup.clock
    with ExitStack() as stack:
        log_file = LogFile(wish.log_file) if wish.log_file else None
        if log_file:
            stack.callback(log_file.close)
        store = SqliteStore(setup.places.records_file)
        stack.callback(store.close)
        stored = gone_on(store, pupil, grid) or _begun(store, pupil, grid, wish.seed, setup)
        plan = planned(stored.id, grid_from(stored.grid_text), stored.seed, stored.settings)
        log = Log(log_file.write, stored.id, clock=clock) if log_file else None
        state = opened(plan, folded(stored.rows), ear, has_headset=has_headset)
        yield Runner(state, store=store, clock=clock, outlets=outlets, log=log)
        if log_file and log_file.trouble:
            tell(log_file.trouble)


def gone_on(store: Store, pupil: str, grid: Grid | None) -> StoredPractice | None:
    """The unfinished practice of this grid, or of any grid where none was named."""
    return store.unfinished(pupil, grid_text=text_of(grid) if grid else None)


def _begun(store: Store, pupil: str, grid: Grid | None, seed: int | None, setup: Setup) -> StoredPractice:
    stored = StoredPractice(
        id=uuid4(),
        pupil=pupil,
        began_at=utc_text(setup.clock.now()),
        grid_text=text_of(grid or DEFAULT.grid),
        seed=SystemRandom().randrange(2**31) if seed is None else seed,
        settings=setup.settings,
        program_version=__version__,
    )
    store.begin(stored)
    return stored
