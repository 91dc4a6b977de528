"""Changing a settings file a setting at a time, with comments and all else in it kept."""

import os
import shutil
from collections.abc import Mapping
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from saythesum.errors import CallerError
from saythesum.values import dataclass


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


def _item(value: Any) -> Any:
    return tomlkit.item(value.value).comment(value.remark) if isinstance(value, Remarked) else value


def replace_file(file: Path, text: str) -> None:
    """Whole or not at all; where there was a file, with the rights that it had. Raises OSError."""
    file.parent.mkdir(parents=True, exist_ok=True)
    part = None
    try:
        with NamedTemporaryFile("w", encoding="utf-8", dir=file.parent, suffix=".part", delete=False) as part:
            part.write(text)
            part.flush()
            os.fsync(part.fileno())
        if file.exists():
            shutil.copymode(file, part.name)
        os.replace(part.name, file)
    except OSError:
        if part:
            Path(part.name).unlink(missing_ok=True)
        raise
