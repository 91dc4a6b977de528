"""The command `saythesum` and its verbs. Exit codes: 0 done, 2 the caller's mistake, 3 missing, 1 our own fault."""

import argparse
import sys
import traceback
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

from saythesum import __version__
from saythesum.app.cli.plain_parser import Parser
from saythesum.app.terminal.console import tell
from saythesum.errors import SayTheSumError


def main(arguments: Sequence[str] | None = None) -> int:
    """One command; every error of ours is one sentence on standard error."""
    try:
        options = parsed(sys.argv[1:] if arguments is None else arguments)
        run = options.run
        return int(run(options) or 0)
    except SayTheSumError as error:
        tell(str(error))
        return error.exit_code
    except BrokenPipeError:
        return 0  # whatever read our lines has gone; the rows are on disk
    except Exception as fault:  # a traceback would mean nothing to a teacher
        tell(_own_fault(fault))
        return 1


def _own_fault(fault: Exception) -> str:
    """One line with what a developer needs: what went wrong, and where."""
    place = traceback.extract_tb(fault.__traceback__)[-1]
    what = " ".join(f"{type(fault).__name__} {fault}".split())
    where = f"{Path(place.filename).name} line {place.lineno}"
    return f"saythesum broke off by a fault of its own ({what}, in {where}); every answer is kept. Start it again."


def parsed(words: Sequence[str]) -> argparse.Namespace:
    """Without a verb the options are those of `practise`, and it begins with the silent start."""
    is_start = not words or (words[0].startswith("-") and words[0] not in _TOP_LEVEL_OPTIONS)
    asked = ["practise", *words] if is_start else words
    options = _parser(_to_load(asked[0])).parse_words(asked)
    options.is_start = is_start
    return options


_VERSION = "--version"
_TOP_LEVEL_OPTIONS = ("-h", "--help", _VERSION)

VERBS = {
    "practise": "practise_verb",
    "rehearse": "rehearse_verb",
    "hear": "hear_verb",
    "check": "checks.check_verb",
    "grid": "grid_verb",
    "models": "models_verb",
    "desk": "desk_verb",
    "pupils": "pupils_verb",
    "plan": "plan_verb",
    "records": "records_verb",
    "shortcut": "shortcut_verb",
    "sheet": "papers.sheet_verb",
    "report": "papers.report_verb",
}
"""In the order in which they are listed. The module of each, from here, adds it to the parser: a start loads that of
its own verb alone."""


def _to_load(first_word: str) -> Sequence[str]:
    """The modules of its verb; those of all verbs where it is none, as then they are listed or one is looked for."""
    if first_word == _VERSION:
        return ()
    return (VERBS[first_word],) if first_word in VERBS else tuple(VERBS.values())


def _parser(modules: Sequence[str]) -> Parser:
    parser = Parser(
        prog="saythesum",
        needs="VERB",
        description="Practise adding across a ten, by ear, voice and keys.\n\n"
        "Without a verb it starts practising. The choices of practise may follow at once,\n"
        "for example: saythesum --pupil rk-7",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="Example: saythesum practise --by text",
    )
    parser.add_argument("--version", action="version", version=f"saythesum {__version__}")
    verbs = parser.add_subparsers(title="verbs", metavar="VERB", required=True)
    for module in modules:
        import_module(f"{__package__}.{module}").add_verb(verbs)
    return parser
