"""The command `saythesum` and its verbs. Exit codes: 0 done, 2 the caller's mistake, 3 missing, 1 our own fault."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn, TypeAlias

from saythesum import __version__
from saythesum.app.by_text import practise_by_text
from saythesum.app.grids import check_grid, show_grid
from saythesum.app.opening import Wish
from saythesum.app.telling import tell
from saythesum.errors import CallerError, SayTheSumError
from saythesum.store.pupils import FIRST_PUPIL


def main(arguments: Sequence[str] | None = None) -> int:
    """One command; every error of ours is one sentence on standard error."""
    try:
        options = _parser().parse_args(arguments)
        run = options.run
        return int(run(options) or 0)
    except SayTheSumError as error:
        tell(str(error))
        return error.exit_code
    except BrokenPipeError:
        # Whoever read our lines has gone; the rows are on disk. Python must not complain at its exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return 0


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise CallerError(f"{message[:1].upper()}{message[1:]}. `{self.prog} --help` says what can be asked.")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="saythesum",
        description="Practise adding across a ten, by ear, voice and keys. Without a verb: start practising.",
        epilog="Example: saythesum practise --by text",
    )
    parser.add_argument("--version", action="version", version=f"saythesum {__version__}")
    parser.set_defaults(run=_start, pupil=FIRST_PUPIL, grid=None, seed=None, log=None)
    verbs = parser.add_subparsers(title="verbs", metavar="VERB", parser_class=_Parser)
    _add_practise(verbs)
    _add_grid(verbs)
    return parser


_Verbs: TypeAlias = "argparse._SubParsersAction[_Parser]"


def _add_practise(verbs: _Verbs) -> None:
    verb = verbs.add_parser(
        "practise",
        help="practise a grid",
        description="Practise a grid; an unfinished one goes on where it was left.",
        epilog="Example: saythesum practise --by text --grid ferry.toml",
    )
    verb.add_argument("--pupil", metavar="CODE", default=FIRST_PUPIL, help="whose practice it is, a code, no name")
    verb.add_argument("--grid", metavar="FILE", type=Path, help="a grid file; without it, the unfinished grid")
    verb.add_argument("--by", metavar="WAY", choices=("text",), default="text", help="text")
    verb.add_argument("--seed", metavar="N", type=_whole, help="for a shuffled order that comes again")
    verb.add_argument("--log", metavar="FILE", type=Path, help="write what happens as JSON lines")
    verb.set_defaults(run=_practise)


def _add_grid(verbs: _Verbs) -> None:
    verb = verbs.add_parser("grid", help="show or check a grid file", epilog="Example: saythesum grid check ferry.toml")
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", parser_class=_Parser, required=True)
    shown = kinds.add_parser(
        "show",
        help="print a grid's sums and answers, or the starter grids",
        epilog="Example: saythesum grid show ferry.toml",
    )
    shown.add_argument("file", metavar="FILE", type=Path, nargs="?")
    shown.set_defaults(run=lambda options: show_grid(options.file))
    checked = kinds.add_parser(
        "check", help="say whether a grid is right", epilog="Example: saythesum grid check ferry.toml"
    )
    checked.add_argument("file", metavar="FILE", type=Path)
    checked.set_defaults(run=lambda options: check_grid(options.file))


def _whole(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) <= 9):
        raise argparse.ArgumentTypeError(f"{text!r} must be a whole number from 0 to 999999999")
    return int(text)


def _start(options: argparse.Namespace) -> None:
    tell("No microphone, loudspeaker or screen is in use yet: this is the plain-text practice.")
    _practise(options)


def _practise(options: argparse.Namespace) -> None:
    wish = Wish(options.pupil, options.grid, options.seed, options.log)
    practise_by_text(wish, sys.stdin)
