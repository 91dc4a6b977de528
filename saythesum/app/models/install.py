"""The speech models that a person added: listed, added, removed."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from shutil import rmtree
from tempfile import TemporaryDirectory

from saythesum.app.models.unpack import ARCHIVES, RIGHT, is_safe_name, unpack
from saythesum.errors import CallerError
from saythesum.hearing.vosk.installed_models import NOTE_NAME, AddedModel, added_model, added_models, write_note
from saythesum.hearing.vosk.model import NEEDED, fault_in, widen_lattice
from saythesum.store.sqlite_errors import MAKE_WRITABLE

Check = Callable[[Path], tuple[str, ...]]
"""Tries the model in a folder and returns what the adult should know. Raises CallerError where it is unusable."""

_WORK_PREFIX = ".changing-"
_LOCK_NAME = "changing.lock"


def list_models(models: Path) -> Iterator[str]:
    """A line for each, in the order in which they were added."""
    added = added_models(models)
    if not added:
        yield "No models have been added. The listening engine neural needs none; vosk needs one."
    for model in added:
        use = ", the one that the engine vosk uses" if model is added[-1] else ""
        fault = model.fault()
        damage = f". It is damaged ({fault}): remove it and add it again" if fault else ""
        yield f"{model.name}, {_megabytes(model)}, added on {model.added_at[:10]}{use}{damage}."


def add_model(source: Path, models: Path, *, check: Check, at: str) -> tuple[AddedModel, tuple[str, ...]]:
    """Unpacks it beside the others, tries it, and only then moves it into place: a model is there whole or not at all.

    `at`: UTC, ISO 8601. Returns it, with what `check` had to say. Raises CallerError.
    """
    source = Path(os.path.abspath(source))
    if source.resolve() in (models.resolve(), *models.resolve().parents):
        raise CallerError(f"{source} holds the folder of the added models itself: name one model.")
    with _changing(models) as work:
        unpack(source, work / _stem(source))
        folder = _model_in(work, source)
        taken = [there.name for there in models.iterdir() if there.name.casefold() == folder.name.casefold()]
        if taken:
            raise CallerError(f"There is already a model {taken[0]}: say saythesum models remove {taken[0]} first.")
        fault = fault_in(folder)
        if fault:
            raise CallerError(f"{source} is not a model for the listening engine vosk: {fault}")
        widen_lattice(folder)
        try:
            notices = check(folder)
        except CallerError as error:
            raise CallerError(f"{source} was not added. {error}") from error
        write_note(folder, at)
        place = folder.rename(models / folder.name)
    model = added_model(place)
    assert model
    return model, notices


def remove_model(name: str, models: Path) -> None:
    """Raises CallerError, and removes nothing, where the model was not added here or holds other files."""
    model = next((model for model in added_models(models) if model.name == name), None)
    if model is None:
        there = ", ".join(model.name for model in added_models(models)) or "none"
        raise CallerError(f"There is no added model {name!r}; there are: {there}.")
    ours = {*model.bytes_of, NOTE_NAME}
    paths = (path for path in model.folder.rglob("*") if path.is_symlink() or not path.is_dir())
    others = sorted(inside for path in paths if (inside := path.relative_to(model.folder).as_posix()) not in ours)
    if others:
        raise CallerError(
            f"{model.folder} also holds {others[0]}, which was not added with the model: move it elsewhere first."
        )
    with _changing(models) as work:
        model.folder.rename(work / name)  # gone at once; what takes time comes after


@contextmanager
def _changing(models: Path) -> Iterator[Path]:
    """A working folder beside the models, removed afterwards. One process at a time.

    What a killed process left behind is removed first. Raises CallerError.
    """
    try:
        models.mkdir(parents=True, exist_ok=True)
        with closing(sqlite3.connect(models / _LOCK_NAME, timeout=0, isolation_level=None)) as lock:
            lock.execute("PRAGMA journal_mode = MEMORY")  # nothing is written: no second file beside it
            lock.execute("BEGIN EXCLUSIVE")  # it goes with the process, however that ends
            for left in models.glob(f"{_WORK_PREFIX}*"):
                rmtree(left, ignore_errors=True)
            with TemporaryDirectory(prefix=_WORK_PREFIX, dir=models, ignore_cleanup_errors=True) as work:
                yield Path(work)
    except OSError as failure:
        raise CallerError(f"The folder {models} cannot be changed ({failure.strerror}): {MAKE_WRITABLE}.") from failure
    except sqlite3.Error as failure:
        if getattr(failure, "sqlite_errorname", "").startswith("SQLITE_BUSY"):
            raise CallerError(
                "Another copy of saythesum is adding or removing a model: try again when it is done."
            ) from failure
        raise CallerError(f"The folder {models} cannot be changed: {MAKE_WRITABLE}.") from failure


def _model_in(work: Path, source: Path) -> Path:
    """The one model, wherever it is in there. It takes its folder's name, or the source's where it has none."""
    found = [path.parents[1] for path in work.rglob("final.mdl") if path.parts[-2:] == Path(NEEDED[0]).parts]
    if len(found) != 1:
        what = "holds more than one model" if found else f"is not a model: there is no {NEEDED[0]} in it"
        raise CallerError(f"{source} {what}. Nothing was added; {RIGHT} for the listening engine vosk.")
    name = found[0].name
    if not is_safe_name(name) or name.startswith("."):
        raise CallerError(f"A model cannot be called {name!r}: give it a name of letters, digits and hyphens.")
    return found[0]


def _stem(source: Path) -> str:
    """ "harbour" of harbour.tar.gz; a folder's name may have dots in it, and keeps them."""
    ending = next((ending for ending in ARCHIVES if source.name.lower().endswith(ending)), "")
    return source.name if source.is_dir() else source.name[: len(source.name) - len(ending)]


def _megabytes(model: AddedModel) -> str:
    return f"{max(1, round(model.total_bytes / 1e6))} MB"
