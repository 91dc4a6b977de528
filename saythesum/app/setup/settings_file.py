"""The person's own settings file: read at every start, changed a setting at a time, comments and all kept."""

import os
import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from saythesum.app.setup.text_files import text_in
from saythesum.app.terminal.console import tell
from saythesum.errors import CallerError
from saythesum.settings import Settings
from saythesum.settings.reading import settings_from

EXAMPLE = "rate_wpm = 140, under a line [speech]"
FOR_NOW = "what was just chosen holds for this practice only"


def own_settings(file: Path, base: Settings | None = None, report: Callable[[str], None] = tell) -> Settings:
    """`report` gets a sentence for each problem; none stops the start. `base`: settings that the file leaves out."""
    try:
        text = text_in(file, EXAMPLE)
    except FileNotFoundError:
        return base or Settings()
    except CallerError as error:
        left = "Nothing in it is used." if base else "All settings have their defaults."
        report(f"The settings file {file} {error} {left}")
        return base or Settings()
    settings, problems = settings_from(text, base)
    for problem in problems:
        report(f"Settings, {file}: {problem}")
    return settings


@dataclass(frozen=True, slots=True)
class Remarked:
    """A value with a remark behind it on the same line."""

    value: int | float | str | bool
    remark: str


def change_settings(file: Path, changes: Mapping[str, Mapping[str, Any]], heading: str = "") -> None:
    """`changes`: table, setting, value or Remarked. The rest of the file stays as it is; where it cannot be
    changed, a sentence says so. `heading`: the first line of a new file.
    """
    try:
        text = text_in(file, EXAMPLE) if file.exists() else ""
        written = tomlkit.parse(text)
        if heading and not text:
            written.add(tomlkit.comment(heading))
        for table, values in changes.items():
            if table not in written:
                written[table] = tomlkit.table()
            for name, value in values.items():
                written[table][name] = _item(value)
        _replace(file, tomlkit.dumps(written))
    except OSError as error:
        tell(f"The settings file {file} cannot be written ({error.strerror}): {FOR_NOW}.")
    except CallerError as error:
        tell(f"The settings file {file} {error} Until then {FOR_NOW}.")
    except (TOMLKitError, TypeError):
        tell(f"The settings file {file} cannot be read as it is, and nothing is added to it: {FOR_NOW}.")


def _item(value: Any) -> Any:
    return tomlkit.item(value.value).comment(value.remark) if isinstance(value, Remarked) else value


def _replace(file: Path, text: str) -> None:
    """Whole or not at all; where there was a file, with the rights that it had."""
    file.parent.mkdir(parents=True, exist_ok=True)
    with NamedTemporaryFile("w", encoding="utf-8", dir=file.parent, suffix=".part", delete=False) as part:
        part.write(text)
    if file.exists():
        shutil.copymode(file, part.name)
    os.replace(part.name, file)
