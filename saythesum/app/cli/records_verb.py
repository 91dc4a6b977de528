"""The verb `records`: given out, taken in, moved, put right, erased."""

import argparse
from datetime import date
from pathlib import Path
from typing import Any
from uuid import UUID

from saythesum.app.cli.plain_parser import Verbs
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show
from saythesum.errors import CallerError
from saythesum.office.correcting import add_note, answers, does_not_count, practices, take_back, was_helped
from saythesum.office.erasing import account_of_erasing, erase, look_at_erasing
from saythesum.office.giving import give
from saythesum.office.keeping import due, due_said, keep_until, kept_until
from saythesum.office.moving import move
from saythesum.office.own_words import erase_own_words
from saythesum.office.pupils import known_code
from saythesum.office.taking_in import account_of_taking_in, look_in, take_in
from saythesum.settings.toml_text import shown
from saythesum.store.pupils import pupil_code
from saythesum.store.reading import kept_grid
from saythesum.wording.for_adults.counted import counted
from saythesum.wording.for_adults.said_marks import notes_said


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "records",
        help="give out, take in, move, correct or erase records",
        description="What is kept of the pupils, on this computer alone.",
        epilog="Example: saythesum records give rk-7 --into rk-7.json",
    )
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", required=True)
    given = _kind(kinds, "give", "write records into one file", "give rk-7 --into rk-7.json")
    given.add_argument("codes", metavar="CODE", nargs="*", help="the pupils; without any, all of them")
    given.add_argument("--into", metavar="FILE", type=Path, default=Path(), help="a new file, or a folder")
    given.set_defaults(run=_give)
    taken = _kind(
        kinds, "take-in", "take in a file of records, also from another computer", "take-in rk-7.json", "FILE"
    )
    taken.add_argument("file", metavar="FILE", type=Path, help="as records give wrote it")
    taken.add_argument("--as", metavar="OLD=NEW", action="append", default=[], dest="names", help="under another code")
    taken.add_argument("--look", action="store_true", help="say what would come in, and change nothing")
    taken.add_argument("--edited", action="store_true", help="also if it was changed since it was given out")
    taken.add_argument(
        "--erased", metavar="CODE", action="append", default=[], help="a pupil erased here may come back"
    )
    taken.set_defaults(run=_take_in)
    moved = _kind(kinds, "move", "move a practice to the pupil whose it is", "move rk-7", "CODE")
    moved.add_argument("code", metavar="CODE", help="whose practices are listed, or to whom one is moved")
    moved.add_argument("practice", metavar="PRACTICE", nargs="?", help="its id; without it the practices are listed")
    moved.add_argument("--rows", metavar="FIRST-LAST", help="only a part of it, counted from 0")
    moved.set_defaults(run=_move)
    correct = _kind(kinds, "correct", "put an answer right, with a trace", "correct rk-7", "CODE")
    correct.add_argument("code", metavar="CODE", help="whose answers are listed")
    correct.add_argument("answer", metavar="ANSWER", nargs="?", help="its id; without it the answers are listed")
    which = correct.add_mutually_exclusive_group()
    which.add_argument("--take-back", action="store_true", help="it was not said, or not by the pupil")
    which.add_argument("--helped", action="store_true", help="it was given with an adult's help")
    which.add_argument("--not-counted", action="store_true", help="it stays and is no evidence")
    which.add_argument("--note", metavar="TEXT", help="one line beside it")
    correct.set_defaults(run=_correct)
    kept = _kind(
        kinds, "keep", "say until when records are kept, and whose time is over", "keep rk-7 --until 2032-07-31"
    )
    kept.add_argument("code", metavar="CODE", nargs="?", help="the pupil; without one, all whose time is over or soon")
    kept.add_argument("--until", metavar="DATE", help="a day such as 2032-07-31, or never; nothing erases by itself")
    kept.set_defaults(run=_keep)
    erased = _kind(kinds, "erase", "erase all that is kept of a pupil", "erase rk-7 --yes", "CODE")
    erased.add_argument("code", metavar="CODE", help="whose records, settings and all else are erased")
    erased.add_argument("--yes", action="store_true", help="without it nothing is erased, only said what would be")
    erased.add_argument("--own-words", action="store_true", help="only how the pupil says the number words")
    erased.set_defaults(run=_erase)


def _kind(kinds: Any, name: str, about: str, example: str, needs: str = "WHAT") -> Any:
    described = f"{about[0].upper()}{about[1:]}."
    epilog = f"Example: saythesum records {example}"
    return kinds.add_parser(name, needs=needs, help=about, description=described, epilog=epilog)


def _give(options: argparse.Namespace) -> None:
    came = give(own_places(), options.into, RealClock().now(), options.codes)
    rows = f"{counted(came.practices, 'practice')} with {counted(came.rows, 'row')}"
    show(f"{came.file} holds {rows} of {', '.join(came.pupils)}.")
    if came.shared_with:
        show(f"Parts of the same practices are of {', '.join(came.shared_with)}, and in the file, too.")
    for id in came.left_out:
        show(f"The practice {id} is damaged and not in it; saythesum check says more.")


def _take_in(options: argparse.Namespace) -> None:
    names = dict(_renaming(one) for one in options.names)
    if options.look:
        came = look_in(own_places(), options.file, names, even_edited=options.edited)
    else:
        erased = {pupil_code(code) for code in options.erased}
        came = take_in(own_places(), options.file, names, even_edited=options.edited, even_erased=erased)
    for sentence in account_of_taking_in(came, would=options.look):
        show(sentence)
    if came.known_here:
        show("For two children of one code take the file in with --as OLD=NEW.")


def _renaming(given: str) -> tuple[str, str]:
    old, equals, new = given.partition("=")
    if not equals:
        raise CallerError(f"--as has {shown(given)}; right would be rk-7=rk-8, the code in the file and the one here.")
    return old, new


def _move(options: argparse.Namespace) -> None:
    if not options.practice:
        for card in practices(own_places(), pupil_code(options.code)):
            titles = ", ".join(kept_grid(text).title for text in card.grids)
            show(
                f"{card.began_at[:16].replace('T', ' ')}, {titles}: {card.rows} rows, {card.answers} answers. {card.id}"
            )
        return
    try:
        practice = UUID(options.practice)
        first, last = map(int, options.rows.split("-")) if options.rows else (0, None)
    except ValueError as error:
        raise CallerError("A practice is named by its id and rows as 3-9; records move CODE lists them.") from error
    came = move(own_places(), practice, options.code, RealClock().now(), first=first, last=last)
    show(f"{came.rows} rows of {', '.join(came.before)} are of {came.pupil} now. Move them back to undo it.")


def _correct(options: argparse.Namespace) -> None:
    own, now, answer = own_places(), RealClock().now(), options.answer
    if not answer:
        for practice in practices(own, pupil_code(options.code)):
            for card in answers(own, practice.id):
                row = card.answer
                state = "taken back" if card.is_taken_back else "right" if row.right else "not right"
                noted = "".join(f", {note}" for note in notes_said(card.notes))
                show(f"{card.at:%Y-%m-%d %H:%M}, {row.asked.shown}: {row.given}, {state}{noted}. {row.id}")
        return
    if options.take_back:
        take_back(own, answer, now)
    elif options.helped:
        was_helped(own, answer, now)
    elif options.not_counted:
        does_not_count(own, answer, now)
    elif options.note:
        add_note(own, answer, options.note, now)
    else:
        raise CallerError("Say what is to be put right: --take-back, --helped, --not-counted or --note TEXT.")
    show("Kept beside the answer, which itself is unchanged.")


def _keep(options: argparse.Namespace) -> None:
    own, now = own_places(), RealClock().now()
    if options.code and options.until:
        keep_until(own, options.code, _day(options.until), now)
    if options.code:
        day = kept_until(own, known_code(own, options.code))
        show(f"The records of {options.code} are kept {f'until {day}' if day else 'without a date'}.")
        return
    if options.until:
        raise CallerError("Say whose records: saythesum records keep CODE --until DATE.")
    found = due(own, now.astimezone().date())
    for one in found:
        show(due_said(one))
    if not found:
        show("Nobody's records are due to go within a month.")


def _day(text: str) -> date | None:
    """None: never."""
    if text == "never":
        return None
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise CallerError(f"--until has {shown(text)}; it is a day such as 2032-07-31, or never.") from error


def _erase(options: argparse.Namespace) -> None:
    if options.own_words:
        _erase_own_words(options)
        return
    if options.yes:
        came = erase(own_places(), options.code, RealClock().now())
    else:
        came = look_at_erasing(own_places(), options.code)
    for sentence in account_of_erasing(came, would=not options.yes):
        show(sentence)
    if not options.yes:
        show("Nothing is erased yet; say --yes to erase.")


def _erase_own_words(options: argparse.Namespace) -> None:
    own, code = own_places(), pupil_code(options.code)
    file = own.words_file(known_code(own, code))
    if not options.yes:
        show(f"Would be erased: {file}" if file.exists() else f"No own words of {code} are kept.")
        show("Nothing is erased yet; say --yes to erase.")
    else:
        show(f"Erased: {file}" if erase_own_words(own, code) else f"No own words of {code} are kept.")
