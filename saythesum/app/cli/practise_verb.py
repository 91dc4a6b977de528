"""The verb `practise`, which also begins where no verb is given."""

import argparse
import sys
from dataclasses import replace
from pathlib import Path

from saythesum.app.cli.plain_parser import Verbs, one_of, whole
from saythesum.app.session.by_keys import practise_by_keys
from saythesum.app.session.by_text import practise_by_text
from saythesum.app.session.found_before import found_before
from saythesum.app.session.practice import Wish
from saythesum.app.setup.before_practice import todays_plan, warnings
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places, own_places
from saythesum.app.terminal.console import show, tell, write
from saythesum.app.terminal.lines import lines_in
from saythesum.core.aims import Aim
from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.errors import CallerError
from saythesum.store.pupils import FIRST_PUPIL, hint_of_a_name, pupil_code


def add_verb(verbs: Verbs) -> None:
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
    verb.add_argument("--seed", metavar="N", type=whole, help="with the same number a shuffled order comes again")
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
    verb.set_defaults(run=practise)


def practise(options: argparse.Namespace) -> None:
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
