"""The folder where the models are that a person added: what is in it, and which one listens."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from saythesum.errors import ListeningError

NOTE_NAME = "saythesum.json"
"""Beside the files of each model that was added: which files those are. A folder without it is none of ours."""
_NOTE_VERSION = 1
_LONGEST_NOTE_BYTES = 1_000_000


@dataclass(frozen=True, slots=True)
class AddedModel:
    folder: Path
    added_at: str
    """UTC, ISO 8601."""
    bytes_of: Mapping[str, int]
    """The size of each of its files, by its path inside the folder."""

    @property
    def name(self) -> str:
        return self.folder.name

    @property
    def total_bytes(self) -> int:
        return sum(self.bytes_of.values())

    def fault(self) -> str | None:
        """What has happened to its files since it was added; None where all is as it was."""
        for name, size in self.bytes_of.items():
            path = self.folder / name
            if not path.is_file():
                return f"its {name} is missing"
            if path.stat().st_size != size:
                return f"its {name} has {path.stat().st_size:,} bytes instead of {size:,}"
        return None


def added_models(models: Path) -> tuple[AddedModel, ...]:
    """In the order in which they were added; `models` need not exist."""
    if not models.is_dir():
        return ()
    found = [added_model(folder) for folder in models.iterdir()]
    return tuple(sorted((model for model in found if model), key=lambda model: (model.added_at, model.name)))


def added_model(folder: Path) -> AddedModel | None:
    """None where the folder is no model that we added, or only leads to one elsewhere."""
    note = folder / NOTE_NAME
    if folder.is_symlink() or folder.name.startswith(".") or not note.is_file():
        return None
    try:
        if note.stat().st_size > _LONGEST_NOTE_BYTES:
            return None
        written = json.loads(note.read_text(encoding="utf-8"))
        sizes = {str(name): int(size) for name, size in written["files"].items()}
        return AddedModel(folder, str(written["added_at"]), sizes)
    except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None


def write_note(folder: Path, added_at: str) -> AddedModel:
    """Makes the folder one of ours, with all the files that are in it."""
    files = sorted(path for path in folder.rglob("*") if path.is_file() and path != folder / NOTE_NAME)
    sizes = {path.relative_to(folder).as_posix(): path.stat().st_size for path in files}
    note = {"v": _NOTE_VERSION, "added_at": added_at, "files": sizes}
    (folder / NOTE_NAME).write_text(json.dumps(note, ensure_ascii=False, indent=1), encoding="utf-8")
    return AddedModel(folder, added_at, sizes)


def model_in_use(models: Path) -> AddedModel:
    """The one that was added last.

    Raises ListeningError where there is none, or its files are not as they were: the engine may end the whole
    process over a file that was cut off.
    """
    added = added_models(models)
    if not added:
        raise ListeningError(
            "The listening engine vosk needs a model, and none has been added: get one from the makers of Vosk, then "
            "say saythesum models add FILE. The engine neural needs none."
        )
    fault = added[-1].fault()
    if fault:
        raise ListeningError(
            f"The model {added[-1].name} is damaged ({fault}): say saythesum models remove {added[-1].name}, "
            "and add it again."
        )
    return added[-1]
