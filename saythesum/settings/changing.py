"""Changing a settings file a setting at a time, with comments and all else in it kept."""

import os
import re
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from saythesum.errors import CallerError


@dataclass(frozen=True, slots=True)
class Remarked:
    """A value that the file explains, on the same line."""

    value: int | float | str | bool
    remark: str


def changed(text: str, changes: Mapping[str, Mapping[str, Any]], heading: str = "") -> str:
    """`changes`: table, setting, and a value, a Remarked, or None to take the setting out.

    `heading`: the first line of a file that is new. Raises CallerError where the text is not TOML with tables.
    """
    try:
        written = tomlkit.parse(text)
        if heading and not text:
            written.add(tomlkit.comment(heading))
        for table, values in changes.items():
            if table not in written:
                written[table] = tomlkit.table()
            for name, value in values.items():
                if value is None:
                    written[table].pop(name, None)
                else:
                    written[table][name] = _item(value)
        return tomlkit.dumps(written)
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise CallerError("cannot be read as it is, and nothing is added to it") from error


_OWN_WORDS = "own_words"
_OWN_WORDS_LINES = re.compile(
    rf"^\s*\[\s*{_OWN_WORDS}\b.*?(?=^\s*\[|\Z)|^[^\n]*{_OWN_WORDS}[^\n]*$", re.MULTILINE | re.DOTALL
)
"""In a text that is not TOML; too much rather than too little."""


def without_own_words(text: str) -> str:
    """A pupil's settings as they may be given out: consent to own words stays where it was noted."""
    if _OWN_WORDS not in text:
        return text
    try:
        written = tomlkit.parse(text)
        written.pop(_OWN_WORDS, None)
        left = tomlkit.dumps(written)
    except TOMLKitError:
        left = _OWN_WORDS_LINES.sub("", text)
    return left.rstrip() + "\n" if left.strip() else ""


def _item(value: Any) -> Any:
    return tomlkit.item(value.value).comment(value.remark) if isinstance(value, Remarked) else value


_PART = ".part"


def parts_of(file: Path) -> tuple[Path, ...]:
    """What writing it left behind when it was broken off."""
    return tuple(file.parent.glob(f"{file.name}-*{_PART}"))


def replace_file(file: Path, content: str | bytes) -> None:
    """Whole or not at all, text with the platform's line ends; where there was a file, with the rights that it had.
    What is left behind where the program is killed has the file's name (`parts_of`).

    Raises OSError.
    """
    file.parent.mkdir(parents=True, exist_ok=True)
    part = None
    try:
        with NamedTemporaryFile("wb", dir=file.parent, prefix=f"{file.name}-", suffix=_PART, delete=False) as part:
            part.write(content if isinstance(content, bytes) else content.replace("\n", os.linesep).encode())
            part.flush()
            os.fsync(part.fileno())
        if file.exists():
            shutil.copymode(file, part.name)
        os.replace(part.name, file)
    except OSError:
        if part:
            Path(part.name).unlink(missing_ok=True)
        raise
