"""The verb `desk`: the adult's pages, in the browser of this machine."""

import argparse
from datetime import timedelta

from saythesum.app.cli.plain_parser import Verbs, cannot_be
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import has_display, own_places
from saythesum.app.setup.settings_file import own_settings
from saythesum.app.terminal.console import show


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "desk",
        help="open the adult's pages in the browser",
        description="Pupils, grids and records as pages in the browser of this computer, and of no other. "
        "A second desk opens the one that is open already.",
        epilog="Example: saythesum desk",
    )
    verb.add_argument("--no-browser", action="store_true", help="open no browser, only say where the desk is")
    verb.add_argument("--port", metavar="N", type=_port, help="the port to answer at; without it any free one")
    verb.set_defaults(run=_desk)


def _desk(options: argparse.Namespace) -> None:
    from saythesum.desk.practising import RealPractice
    from saythesum.desk.serving import Wish, open_desk

    own = own_places()
    minutes = own_settings(own.settings_file).desk.unused_minutes
    begins = RealPractice(own.data, own.one_folder, has_display())
    wish = Wish(options.port, not options.no_browser, timedelta(minutes=minutes))
    open_desk(own, RealClock(), begins, wish, show)


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:6]) <= 65_535):
        raise cannot_be(text, "it is a whole number from 1 to 65535, such as 8040")
    return int(text)
