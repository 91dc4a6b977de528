"""What a window shows: in digits for the eye, in words for a screen reader."""

from collections.abc import Mapping, Sequence

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.keyboard.keys import Focus, Key
from saythesum.settings import Keys
from saythesum.wording.numbers import listed, words
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.lengths import capital

_KEYS: Mapping[Focus, tuple[str, str]] = {
    Focus.QUESTION: ("Space", "say_again"),
    Focus.ANSWER: ("Enter", "enter"),
    Focus.GRID: ("", ""),
    Focus.HELP: ("Page Down", "help"),
    Focus.NOT_WHAT_I_SAID: ("Backspace", "not_what_i_said"),
    Focus.SKIP: ("", "skip"),
    Focus.PATTERNS: ("F4", "patterns"),
    Focus.STOP: ("", "stop"),
}
"""Everybody's key for each button, and the setting that may give it one more."""

PAD_NAMES: Mapping[Key, str] = {Key.BACKSPACE: "Rub out", Key.ENTER: "Enter", Key.UP: "Up", Key.DOWN: "Down"}
"""Keys as buttons, beside the digits."""
BRAILLE_VERDICTS: Mapping[bool, str] = {True: "Yes", False: "Not yet"}
"""By whether the answer was right: in as few cells as can be."""
BEGIN, CLOSE = "Begin", "Close"
"""Enter as a button, before a practice and after it."""


def keys_of(button: Focus, own: Keys) -> str:
    """The keys that do the same as the button: "Page Down or F5"; "" where Tab is the only way to it."""
    usual, setting = _KEYS[button]
    names = (usual, dict(own.given).get(setting, ""))
    return " or ".join(name for name in names if name)


# ---- sums ------------------------------------------------------------------------------------------


def sum_in_words(asked: Exercise) -> str:
    return words_of(asked).whole(asked)


def amount_in_words(asked: Exercise) -> str:
    """As its column's header says it."""
    return words_of(asked).in_row(asked)


# ---- the answer and its verdict ----------------------------------------------------------------------


def answer_name(asked: Exercise, part: Part) -> str:
    """The name of the field that the answer stands in."""
    return f"Answer to {sum_in_words(asked)}" if part is Part.WHOLE else part_name(asked, part)


def part_name(asked: Exercise, part: Part) -> str:
    """Which part of the way is asked; "" for the whole."""
    return words_of(asked).part_name(part)


def typed_in_words(digits: Sequence[int]) -> str:
    """Digit by digit: half-typed, 4 may be forty-one or four."""
    return listed(digits) if digits else "nothing yet"


def verdict_in_digits(asked: Exercise, given: int, verdict: str, *, is_right: bool) -> str:
    """An equals sign stands only where the two sides are equal."""
    return f"{asked.shown_with(given) if is_right else f'{asked.shown}: {given}'}. {verdict}"


def verdict_in_words(asked: Exercise, given: int, verdict: str, *, is_right: bool) -> str:
    if is_right:
        return f"{words_of(asked).answered(asked)} {verdict}"
    return f"{capital(sum_in_words(asked))}: {words(given)}. {verdict}"


# ---- the grid ----------------------------------------------------------------------------------------


def grid_name(rows: int, columns: int) -> str:
    sums = f"{words(columns)} {'sum' if columns == 1 else 'sums'} in each"
    return f"Grid, {words(rows)} {'row' if rows == 1 else 'rows'}, {sums}"


def list_name(sums: int) -> str:
    return f"List, {words(sums)} {'sum' if sums == 1 else 'sums'}"


ANSWER_NAME = "answer"


def cell_in_words(answer: int | None, *, is_left_open: bool) -> str:
    if answer is not None:
        return words(answer)
    return "left for another day" if is_left_open else "not done"


def grid_extract(rows: range, columns: range, of_rows: int, of_columns: int) -> str:
    """Says so where a grid is too large to be shown whole."""
    said = []
    for shown, all_of_them, name in ((rows, of_rows, "Row"), (columns, of_columns, "Column")):
        if len(shown) < all_of_them:
            which = f"{name} {shown.start + 1}" if len(shown) == 1 else f"{name}s {shown.start + 1} to {shown.stop}"
            said.append(f"{which} of {all_of_them}")
    return ". ".join(said)


# ---- the number line -----------------------------------------------------------------------------------


def line_in_words(start: int, jumps: Sequence[tuple[int | None, int | None]]) -> str:
    """`jumps`: how far and to where, None where the pupil has not got there yet."""
    names = ("First jump", "Second jump", "Third jump")[: len(jumps)] if len(jumps) > 1 else ("Jump",)
    lines = [f"{name}: {_jump(by, to)}." for name, (by, to) in zip(names, jumps, strict=True)]
    return " ".join([f"Number line from {words(start)}.", *lines])


def _jump(by: int | None, to: int | None) -> str:
    known = [words(by) if by is not None else "", f"to {words(to)}" if to is not None else ""]
    return ", ".join(text for text in known if text) or "not known yet"


# ---- a braille line --------------------------------------------------------------------------------------


def sum_of_sums(place: int, count: int) -> str:
    return f"sum {place} of {count}"


def asked_in_braille(asked: Exercise, part: Part) -> str:
    """What stands before the answer: the sum, or the question for a part in a few cells."""
    if part in CLOSING_PARTS:
        return asked.shown.replace(" ", "") + ("" if asked.is_equation else "=")
    ten = next((jump.to for jump in asked.jumps), None)
    short = {Part.NEXT_TEN: f"{asked.start} next ten?", Part.REST: f"left of {asked.amount}?"}
    short |= {Part.ONE_MORE: f"{asked.start} one more?"}
    if part is Part.GAP and ten is not None:
        return f"{asked.start} to {ten}? "
    return f"{short.get(part) or f'{part_name(asked, part)}?'} "
