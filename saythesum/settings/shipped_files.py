"""Where the files that came with the program are: beside the package in a checkout, inside it in a wheel."""

from pathlib import Path

import saythesum
from saythesum.errors import SayTheSumError

_PACKAGE = Path(saythesum.__file__).parent


def audio_folder() -> Path:
    """The sound cues, and in `pupil` the phrases of the made-up pupil."""
    return _folder("audio", holds="README.md")


def models_folder() -> Path:
    """What listening needs and we made; models that a person added live in their own folder."""
    return _folder("models", holds="README.md")


def fonts_folder() -> Path:
    """Andika, with its licence."""
    return _PACKAGE / "screen" / "fonts"


def _folder(name: str, holds: str) -> Path:
    for folder in (_PACKAGE / f"_{name}", _PACKAGE.parent / name):
        if (folder / holds).is_file():
            return folder
    raise SayTheSumError(f"The folder {name} that comes with saythesum is missing; install saythesum again.")
