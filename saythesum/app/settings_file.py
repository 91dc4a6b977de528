"""The person's own settings file: read at every start, changed a setting at a time, comments and all kept."""

import os
from collections.abc import Mapping
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from saythesum.app.telling import tell
from saythesum.settings import Settings
from saythesum.settings.reading import settings_from


def own_settings(file: Path) -> Settings:
    """Problems in the settings are told, and never stop the start."""
    try:
        text = file.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        return Settings()
    except (OSError, UnicodeDecodeError) as error:
        tell(f"The settings in {file} cannot be read ({error}). All settings have their defaults.")
        return Settings()
    settings, problems = settings_from(text)
    for problem in problems:
        tell(f"Settings, {file}: {problem}")
    return settings


def change_settings(file: Path, changes: Mapping[str, Mapping[str, Any]]) -> None:
    """`changes`: table, setting, value. What else stands in the file stays; a file that cannot be changed is told."""
    try:
        text = file.read_text(encoding="utf-8-sig") if file.exists() else ""
        written = tomlkit.parse(text)
        for table, values in changes.items():
            if table not in written:
                written[table] = tomlkit.table()
            for name, value in values.items():
                written[table][name] = value
        _replace(file, tomlkit.dumps(written))
    except (OSError, UnicodeDecodeError, TOMLKitError, TypeError) as error:
        tell(f"The settings in {file} cannot be changed ({error}); they hold for this practice only.")


def _replace(file: Path, text: str) -> None:
    """Whole or not at all."""
    file.parent.mkdir(parents=True, exist_ok=True)
    with NamedTemporaryFile("w", encoding="utf-8", dir=file.parent, suffix=".part", delete=False) as part:
        part.write(text)
    os.replace(part.name, file)
