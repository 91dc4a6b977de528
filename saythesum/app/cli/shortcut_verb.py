"""The verb `shortcut`: icons on the desktop, to practise and for the desk."""

import argparse
import os
import sys
from pathlib import Path

from platformdirs import user_data_path, user_desktop_path

from saythesum.app.cli.plain_parser import Verbs
from saythesum.app.setup.folders import HOME_VARIABLE
from saythesum.app.terminal.console import show
from saythesum.office.upkeep.shortcuts import put_icons


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "shortcut",
        help="put two icons on the desktop: practise, and the desk",
        description="Put two icons on the desktop, one to practise and one for the adult's desk.",
        epilog="Example: saythesum shortcut",
    )
    verb.add_argument("--into", metavar="FOLDER", type=Path, help="another folder; without it the desktop and the menu")
    verb.set_defaults(run=_shortcut)


def _shortcut(options: argparse.Namespace) -> None:
    home = os.environ.get(HOME_VARIABLE, "").strip()
    folders = [options.into] if options.into else _folders()
    written = put_icons(_command(), Path(home).expanduser().absolute() if home else None, sys.platform, folders)
    for file in written:
        show(f"Written: {file}")
    if sys.platform.startswith("linux"):
        show("Some desktops ask once whether such an icon may start a program: allow launching it.")
    else:
        show("These icons were never tried on this kind of computer.")


def _folders() -> list[Path]:
    """The desktop, and on Linux the list of programs: a screen reader's user starts from there."""
    menu = [user_data_path() / "applications"] if sys.platform.startswith("linux") else []
    return [user_desktop_path(), *menu]


def _command() -> list[str]:
    """As it was started now, by its whole path."""
    started = Path(sys.argv[0]).absolute()
    if started.name in ("saythesum", "saythesum.exe") and started.is_file():
        return [str(started)]
    return [sys.executable, "-m", "saythesum"]
