"""Icons on the desktop: one to practise, one for the desk.

On Linux by the Desktop Entry Specification 1.5 (freedesktop.org). On Windows and macOS a script that can be opened
with a double press, written by their own rules and not tried there.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from saythesum.errors import CallerError
from saythesum.settings.changing import replace_file


@dataclass(frozen=True, slots=True)
class Icon:
    file_name: str
    text: str


@dataclass(frozen=True, slots=True)
class _Starts:
    name: str
    title: str
    about: str
    words: tuple[str, ...]


DESK_ICON = "Desk for sums"
_ICONS = (
    _Starts("saythesum-practise", "Practise sums", "Sums across a ten, by ear, voice and keys", ()),
    _Starts("saythesum-desk", DESK_ICON, "For the adult: pupils, grids, plans and records", ("desk",)),
)


def icons(command: Sequence[str], home: Path | None, platform: str) -> tuple[Icon, ...]:
    """`command`: what starts the program, `home`: the folder for all that is kept, where one was named; `platform` as
    `sys.platform` has it. Raises CallerError for a path that the platform's file cannot hold."""
    words = [*command, *(str(home) if home else "",)]
    if any(not word.isprintable() for word in words):
        raise CallerError("The program's path has a line break or the like in it, and no icon can hold that.")
    write = {"win32": _windows, "darwin": _macos}.get(platform, _linux)
    return tuple(write(command, home, one) for one in _ICONS)


def put_icons(command: Sequence[str], home: Path | None, platform: str, folders: Sequence[Path]) -> tuple[Path, ...]:
    """Into each of the folders that is there; written over where they are there already. Raises CallerError."""
    there = [folder for folder in folders if folder.is_dir()]
    if not there:
        raise CallerError(f"There is no folder {folders[0]} for the icons: name one with --into.")
    written = []
    for folder in there:
        for icon in icons(command, home, platform):
            file = folder / icon.file_name
            try:
                replace_file(file, icon.text)
                file.chmod(0o700)
            except OSError as error:
                raise CallerError(f"{file} cannot be written ({error.strerror}): name a folder with --into.") from error
            written.append(file)
    return tuple(written)


def _linux(command: Sequence[str], home: Path | None, one: _Starts) -> Icon:
    words = [*(("env", f"SAYTHESUM_HOME={home}") if home else ()), *command, *one.words]
    entry = {
        "Type": "Application",
        "Version": "1.5",
        "Name": one.title,
        "Comment": one.about,
        "Exec": " ".join(map(_exec_word, words)),
        "Terminal": "false",
        "Categories": "Education;Math;",
    }
    lines = ["[Desktop Entry]", *(f"{key}={value}" for key, value in entry.items())]
    return Icon(f"{one.name}.desktop", "\n".join(lines) + "\n")


def _exec_word(word: str) -> str:
    """Quoted as the specification's chapter "The Exec key" says, then escaped once more as its strings are."""
    if re.fullmatch(r"[\w./=:@+-]+", word, re.ASCII):
        return word
    quoted = re.sub(r'(["`$\\])', r"\\\1", word).replace("%", "%%")
    return f'"{quoted}"'.replace("\\", "\\\\")


def _macos(command: Sequence[str], home: Path | None, one: _Starts) -> Icon:
    """A text that Terminal runs."""
    words = [*(("env", f"SAYTHESUM_HOME={home}") if home else ()), *command, *one.words]
    return Icon(f"{one.title}.command", f"#!/bin/sh\nexec {' '.join(map(_shell_word, words))}\n")


def _shell_word(word: str) -> str:
    return "'" + word.replace("'", "'\\''") + "'"


def _windows(command: Sequence[str], home: Path | None, one: _Starts) -> Icon:
    words = " ".join(f'"{word}"' for word in [*command, *one.words]).replace("%", "%%")
    setting = f'set "SAYTHESUM_HOME={str(home).replace("%", "%%")}"\n' if home else ""
    return Icon(f"{one.title}.cmd", f"@echo off\nchcp 65001 >nul\n{setting}{words}\n")
