"""Settings as texts: what a form or a command line gives, checked and written into a settings file."""

import tomllib
from collections.abc import Mapping
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

from saythesum.errors import CallerError
from saythesum.settings import Settings
from saythesum.settings.changing import changed, replace_file
from saythesum.settings.reading import everybodys, limits_of, settings_from
from saythesum.settings.text_files import text_in
from saythesum.settings.toml_text import rather, shown, shown_name

EXAMPLE = "rate_wpm = 140, under a line [speech]"


class SettingsError(CallerError):
    """Values that no setting has."""

    def __init__(self, problems: Mapping[str, str]) -> None:
        super().__init__("\n".join(problems.values()))
        self.problems = problems
        """A sentence for each, by the setting as `table.name`."""


def would_be(values: Mapping[str, str], base: Settings) -> Settings:
    """`base` with values as of `change_pupil`; nothing is kept. Raises SettingsError."""
    tables = {
        table: replace(
            getattr(base, table), **{name: limits_of(_kind(table), name).taken(value) for name, value in some.items()}
        )
        for table, some in written(values).items()
    }
    return replace(base, **tables)


def all_settings() -> tuple[str, ...]:
    """Every setting, as `table.name`, in order."""
    return tuple(f"{table.name}.{one.name}" for table in fields(Settings) for one in fields(_kind(table.name)))


def _kind(table: str) -> type[Any]:
    kind: type[Any] = next(one.default_factory for one in fields(Settings) if one.name == table)  # type: ignore[assignment]
    return kind


def settings_in(file: Path, over: Settings | None) -> tuple[Settings, tuple[str, ...]]:
    try:
        settings, problems = settings_from(text_in(file, EXAMPLE), over)
    except FileNotFoundError:
        return over or Settings(), ()
    except CallerError as error:
        return over or Settings(), (f"The settings file {file} {error} Nothing in it is used.",)
    if over is None:
        settings, own = everybodys(settings)
        problems = (*problems, *own)
    return settings, tuple(f"Settings, {file}: {problem}" for problem in problems)


def values_in(file: Path) -> dict[str, Any] | None:
    """`table.name` to value; None where the file cannot be read."""
    try:
        tables = tomllib.loads(text_in(file, EXAMPLE))
    except FileNotFoundError:
        return {}
    except (CallerError, ValueError):
        return None
    pairs = {
        f"{table}.{name}": value
        for table, values in tables.items()
        if isinstance(values, Mapping)
        for name, value in values.items()
    }
    return {name: value for name, value in pairs.items() if name in all_settings()}


def written(values: Mapping[str, str]) -> dict[str, dict[str, Any]]:
    """Raises SettingsError."""
    tables: dict[str, dict[str, Any]] = {}
    problems = {}
    for setting, text in values.items():
        table, _, name = setting.partition(".")
        if setting not in all_settings():
            problems[setting] = f"{shown_name(setting)} is not a setting; {rather(setting, all_settings())}"
            continue
        try:
            tables.setdefault(table, {})[name] = _value(table, name, text)
        except CallerError as right:
            problems[setting] = f"{setting} cannot be {shown(text)}; it is {right}."
    if problems:
        raise SettingsError(problems)
    return tables


def _value(table: str, name: str, text: str) -> Any:
    """What stands in the file: raises CallerError whose text is what would be right."""
    if not text.strip():
        return None
    limits = limits_of(_kind(table), name)
    try:
        value = tomllib.loads(f"value = {text}")["value"]
        _ = limits.taken(value)
    except (ValueError, KeyError):  # words without quotes, or words that look like something else
        _ = limits.taken(text.strip())
        return text.strip()
    return value


def write_settings(file: Path, written: Mapping[str, Mapping[str, Any]], heading: str = "") -> None:
    """Raises CallerError where a setting would contradict another one, too."""
    try:
        text = text_in(file, EXAMPLE) if file.exists() else ""
        new = changed(text, written, heading)
        problems = [
            one for one in settings_from(new)[1] if _unnumbered(one) not in map(_unnumbered, settings_from(text)[1])
        ]
        if problems:
            raise SettingsError({"": "\n".join(map(_unnumbered, problems))})
        replace_file(file, new)
    except OSError as error:
        raise CallerError(f"The settings file {file} cannot be written ({error.strerror}).") from error
    except SettingsError:
        raise
    except CallerError as error:
        raise CallerError(f"The settings file {file} {str(error).rstrip('.')}; put it right first.") from error


def _unnumbered(problem: str) -> str:
    """Without the line, which is another one after a change."""
    return problem.partition(": ")[2] or problem
