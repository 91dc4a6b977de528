"""The person's own settings file: read at every start, changed a setting at a time, comments and all kept."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from saythesum.app.terminal.console import tell
from saythesum.errors import CallerError
from saythesum.settings import Settings
from saythesum.settings.changing import changed, replace_file
from saythesum.settings.reading import everybodys, settings_from
from saythesum.settings.text_files import text_in

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
    if base is None:
        settings, own = everybodys(settings)
        problems = (*problems, *own)
    for problem in problems:
        report(f"Settings, {file}: {problem}")
    return settings


def change_settings(file: Path, changes: Mapping[str, Mapping[str, Any]], heading: str = "") -> None:
    """`changes`: table, setting, value or Remarked. The rest of the file stays as it is; where it cannot be
    changed, a sentence says so. `heading`: the first line of a new file.
    """
    try:
        text = text_in(file, EXAMPLE) if file.exists() else ""
    except CallerError as error:
        tell(f"The settings file {file} {error} Until then {FOR_NOW}.")
        return
    try:
        replace_file(file, changed(text, changes, heading))
    except OSError as error:
        tell(f"The settings file {file} cannot be written ({error.strerror}): {FOR_NOW}.")
    except CallerError as error:
        tell(f"The settings file {file} {error}: {FOR_NOW}.")
