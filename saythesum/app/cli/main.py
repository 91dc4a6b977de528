"""The command `saythesum` and its verbs. Exit codes: 0 done, 2 the caller's mistake, 3 missing, 1 our own fault."""

import argparse
import sys
import traceback
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TypeAlias

from saythesum import __version__
from saythesum.app.cli.desk_verb import add_desk_verb
from saythesum.app.cli.grid_make import add_grid_make
from saythesum.app.cli.grid_verb import check_grid, show_grid
from saythesum.app.cli.models_verb import add_models_verb
from saythesum.app.cli.papers.report_verb import add_report_verb
from saythesum.app.cli.papers.sheet_verb import add_sheet_verb
from saythesum.app.cli.plain_parser import Parser, cannot_be, one_of
from saythesum.app.cli.plan_verb import add_plan_verb
from saythesum.app.cli.pupils_verb import add_pupils_verb
from saythesum.app.cli.records_verb import add_records_verb
from saythesum.app.cli.shortcut_verb import add_shortcut_verb
from saythesum.app.rehearsal.kinds import KINDS, NO_MISTAKE, RIGHT, PupilKind
from saythesum.app.session.by_keys import practise_by_keys
from saythesum.app.session.by_text import practise_by_text
from saythesum.app.session.found_before import found_before
from saythesum.app.session.practice import Wish, own_places
from saythesum.app.setup.before_practice import todays_plan, warnings
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places
from saythesum.app.terminal.console import show, tell, write
from saythesum.app.terminal.lines import lines_in
from saythesum.core.aims import Aim
from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.core.meanings import Awaiting
from saythesum.errors import CallerError, SayTheSumError
from saythesum.settings import Listening
from saythesum.settings.reading import limits_of
from saythesum.store.pupils import FIRST_PUPIL, hint_of_a_name, pupil_code


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
    options = _parser().parse_words(["practise", *words] if is_start else words)
    options.is_start = is_start
    return options


_TOP_LEVEL_OPTIONS = ("-h", "--help", "--version")


def _parser() -> Parser:
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
    _add_practise(verbs)
    _add_rehearse(verbs)
    _add_hear(verbs)
    _add_check(verbs)
    _add_grid(verbs)
    add_models_verb(verbs)
    add_desk_verb(verbs)
    add_pupils_verb(verbs)
    add_plan_verb(verbs, _practise)
    add_records_verb(verbs)
    add_shortcut_verb(verbs)
    add_sheet_verb(verbs)
    add_report_verb(verbs)
    return parser


_Verbs: TypeAlias = "argparse._SubParsersAction[Parser]"


def _add_practise(verbs: _Verbs) -> None:
    verb = verbs.add_parser(
        "practise",
        help="practise a grid, or go on with the one that was left",
        description="Practise a grid; an unfinished one goes on where it was left.",
        epilog="Example: saythesum practise --by text --grid ferry.toml",
    )
    verb.add_argument(
        "--pupil", metavar="CODE", default=FIRST_PUPIL, help="whose practice it is: a code such as rk-7, never a name"
    )
    verb.add_argument(
        "--grid",
        metavar="FILE",
        type=Path,
        help="a grid file or a starter grid's name; without it the unfinished grid goes on",
    )
    verb.add_argument(
        "--by",
        metavar="WAY",
        type=one_of(("voice", "keys", "switch", "text")),
        help="how to answer: voice, keys, switch or text",
    )
    verb.add_argument(
        "--ear",
        metavar="KIND",
        type=one_of(("press", "open")),
        help="when it listens: press, after a key, or open, by itself",
    )
    verb.add_argument("--seed", metavar="N", type=_whole, help="with the same number a shuffled order comes again")
    verb.add_argument(
        "--log", metavar="FILE", type=Path, help="write down all that happens, as JSON lines, for other programs"
    )
    verb.add_argument("--probe", action="store_true", help="eight sums without help or verdict, to compare days")
    verb.add_argument("--find-out", action="store_true", help="sums that show what a mistake could be; told at the end")
    verb.add_argument(
        "--facts",
        metavar="NAME",
        type=one_of(tuple(one.name for one in FACT_ACTIVITIES)),
        help=f"a minute of the facts that sums stand on: {', '.join(one.name for one in FACT_ACTIVITIES)}",
    )
    verb.add_argument("--why", action="store_true", help="when it is over, tell why each sum was chosen")
    verb.add_argument("--found", action="store_true", help="tell again what the last finding out found; no practice")
    verb.set_defaults(run=_practise)


def _add_rehearse(verbs: _Verbs) -> None:
    kinds = "\n".join(f"{kind.name}: {kind.about}" for kind in NO_MISTAKE)
    mistakes = "\n".join(name for name, kind in KINDS.items() if kind not in NO_MISTAKE)
    verb = verbs.add_parser(
        "rehearse",
        help="hear a whole practice with a made-up pupil",
        description="A practice with a made-up pupil whose spoken answers go through the real listening engine.\n"
        "Needs no microphone, loudspeaker or screen. A made-up pupil is no evidence about children.\n\n"
        f"Kinds of pupil:\n{kinds}\n\nOr the name of a mistake, made wherever it can show:\n{mistakes}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="Example: saythesum rehearse --pupil-kind stopped-at-the-ten",
    )
    verb.add_argument(
        "--into",
        metavar="FOLDER",
        type=Path,
        default=Path("rehearsal"),
        help="where sound, log and transcript are written",
    )
    verb.add_argument("--pupil-kind", metavar="KIND", type=_pupil_kind, default=RIGHT, help="one of those above")
    verb.add_argument(
        "--grid", metavar="FILE", type=Path, help="a grid file or a starter grid's name; without it the ferry"
    )
    verb.add_argument(
        "--seed", metavar="N", type=_whole, default=0, help="with the same number the same rehearsal comes again"
    )
    verb.add_argument("--engine", metavar="NAME", help="the listening engine: neural or vosk")
    verb.set_defaults(run=_rehearse)


def _add_hear(verbs: _Verbs) -> None:
    verb = verbs.add_parser(
        "hear",
        needs="WAV",
        help="say what is understood in recordings",
        description="Say what is understood in recordings, as a pupil's answer would be. Nothing is kept.",
        epilog="Example: saythesum hear answer.wav --listening-for number --json",
    )
    which = verb.add_argument_group("recordings")
    which.add_argument("files", metavar="WAV", type=Path, nargs="+", help="a WAV file with one answer in it")
    verb.add_argument("--engine", metavar="NAME", default="neural", help="the listening engine: neural or vosk")
    verb.add_argument(
        "--listening-for",
        metavar="KIND",
        type=_awaiting,
        default=Awaiting.NUMBER,
        help="what an answer is taken for: number, step, choice or command",
    )
    verb.add_argument("--json", action="store_true", help="one JSON object a file, for other programs")
    verb.add_argument("--pupil", metavar="CODE", help="a pupil's recordings, heard with what was learnt of them")
    verb.add_argument("--factor", metavar="F", type=_factor, help="lower what is heard by it: 1.2 to 1.5 for a child")
    verb.add_argument(
        "--learn-factor", action="store_true", help="recordings of one speaker: find the factor, hear them with it"
    )
    verb.set_defaults(run=_hear)


def _add_check(verbs: _Verbs) -> None:
    verb = verbs.add_parser(
        "check",
        help="say what works on this machine and what to do",
        description="Look at settings, voice, loudspeaker, microphone, listening, window and records, and say what "
        "works, what does not and what to do.",
        epilog="Example: saythesum check --words --pupil rk-7",
    )
    verb.add_argument("--pupil", metavar="CODE", help="with this pupil's own settings")
    verb.add_argument(
        "--words", action="store_true", help="a minute of number words by ear: which of them are told apart"
    )
    verb.add_argument(
        "--mend", action="store_true", help="damaged records: make new ones of all that can be read, and keep the old"
    )
    verb.set_defaults(run=_check)


def _add_grid(verbs: _Verbs) -> None:
    verb = verbs.add_parser(
        "grid",
        help="show or check a grid file",
        description="A grid is a text file of two lines or more, for example:\n\n"
        "  add   = [5, 8, 3]\n  start = [47, 59, 36]\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="Example: saythesum grid check ferry.toml",
    )
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", required=True)
    shown = kinds.add_parser(
        "show",
        help="print a grid's sums and answers, or the starter grids",
        description="Print the sums of a grid with their answers.",
        epilog="Example: saythesum grid show ferry.toml",
    )
    _add_grid_file(shown, "a grid file or a starter grid's name; without it all starter grids are shown", nargs="?")
    shown.set_defaults(run=lambda options: show_grid(options.file))
    add_grid_make(kinds)
    checked = kinds.add_parser(
        "check",
        needs="FILE",
        help="say whether a grid is right",
        description="Say whether a grid is right and what kinds of sums are in it, or what is wrong, line by line.",
        epilog="Example: saythesum grid check ferry.toml",
    )
    _add_grid_file(checked, "a grid file")
    checked.set_defaults(run=lambda options: check_grid(options.file))


def _add_grid_file(verb: argparse.ArgumentParser, about: str, nargs: str | None = None) -> None:
    verb.add_argument_group("which").add_argument("file", metavar="FILE", type=Path, nargs=nargs, help=about)


def _whole(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) <= 9):
        raise cannot_be(text, "it is a whole number from 0 to 999999999")
    return int(text)


def _factor(text: str) -> float:
    try:
        factor = float(text)
    except ValueError as error:
        raise cannot_be(text, "it is a number, for example 1.2") from error
    try:
        limits_of(Listening, "vocal_tract_factor").taken(factor)
    except CallerError as right:
        raise cannot_be(text, f"it is {right}") from right
    return factor


def _pupil_kind(text: str) -> PupilKind:
    return KINDS[one_of(tuple(KINDS))(text)]


def _awaiting(text: str) -> Awaiting:
    return Awaiting(one_of(tuple(Awaiting))(text))


def _practise(options: argparse.Namespace) -> None:
    """Falls back to plain text where there is neither sound nor a window, and no way was asked for by name."""
    wish = Wish(options.pupil, options.grid, options.seed, options.log, _aim(options), options.why, options.facts)
    if hint := hint_of_a_name(options.pupil):
        tell(hint)
    if options.found:
        for line in found_before(options.pupil):
            show(line)
        return
    own = own_places()
    code, now = pupil_code(wish.pupil), RealClock().now()
    if _follows_the_plan(wish):
        wish = replace(wish, today=todays_plan(own, code, now))
    _check_write_ahead_log(wish, own)
    for warning in warnings(own, code, now):
        tell(warning)
    if options.by == "text":
        practise_by_text(wish, lines_in(sys.stdin))
        return
    from saythesum.app.session.by_voice import LiveWish, NothingToUseError, practise_live

    try:
        practise_live(wish, LiveWish(options.by, options.ear, asks_first=options.is_start), sys.stdin)
    except NothingToUseError as error:
        if options.by == "keys":
            practise_by_keys(wish, sys.stdin, write)
        elif options.by == "switch":
            raise
        else:
            tell(f"{error} This is the practice in plain text.")
            practise_by_text(wish, lines_in(sys.stdin))


def _follows_the_plan(wish: Wish) -> bool:
    """Where nothing else was asked for."""
    return not (wish.grid_file or wish.facts or wish.seed is not None or wish.aim is not Aim.PRACTISE)


def _check_write_ahead_log(wish: Wish, own: Places) -> None:
    """Raises CallerError where lines would be written into a file that is for something else."""
    log = wish.log_file
    if log and (own.is_ours(log) or (wish.grid_file and log.resolve() == wish.grid_file.resolve())):
        what = "the grid" if not own.is_ours(log) else "a file of saythesum's own"
        raise CallerError(f"{log} is {what}: name another file for the log.")


def _aim(options: argparse.Namespace) -> Aim:
    """Raises CallerError for options that contradict each other."""
    if options.probe and options.find_out:
        raise CallerError("--probe and --find-out are two different practices: leave one of them out.")
    if options.probe and (options.grid or options.seed is not None):
        raise CallerError("A probe has its own eight sums: leave --grid and --seed out, or leave --probe out.")
    if options.find_out and options.grid:
        raise CallerError("Finding out chooses among sums of its own: leave --grid out, or leave --find-out out.")
    others = {"--grid": options.grid, "--probe": options.probe, "--find-out": options.find_out}
    if options.facts and (other := next((name for name, value in others.items() if value), None)):
        raise CallerError(f"--facts has questions of its own: leave {other} out, or leave --facts out.")
    if options.facts:
        return Aim.FACTS
    if options.probe:
        return Aim.PROBE
    return Aim.FIND_OUT if options.find_out else Aim.PRACTISE


def _rehearse(options: argparse.Namespace) -> None:
    # The libraries of sound and listening are loaded by the verbs that need them.
    from saythesum.app.rehearsal.rehearse import RehearsalWish, rehearse

    wish = RehearsalWish(options.into, options.pupil_kind, options.grid, options.seed, options.engine)
    rehearse(wish)


def _hear(options: argparse.Namespace) -> int:
    lowered_by = {"--pupil": options.pupil, "--factor": options.factor, "--learn-factor": options.learn_factor}
    if len(given := [name for name, value in lowered_by.items() if value]) > 1:
        raise CallerError(f"{given[0]} and {given[1]} do not go together: leave one of them out.")
    from saythesum.app.cli.hear_verb import HearWish, hear

    wish = HearWish(
        options.files,
        options.listening_for,
        engine=options.engine,
        as_json=options.json,
        pupil=options.pupil,
        factor=options.factor,
        learns_factor=options.learn_factor,
    )
    return hear(wish)


def _check(options: argparse.Namespace) -> None:
    if options.mend:
        from saythesum.app.cli.checks.check_records import mend_records

        mend_records()
    elif options.words:
        from saythesum.app.cli.checks.check_words import check_words

        check_words(options.pupil)
    else:
        from saythesum.app.cli.checks.check_verb import check

        check(options.pupil)
