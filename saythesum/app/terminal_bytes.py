"""The bytes that a terminal sends, as presses.

A terminal does not tell a key that is held from one pressed often, nor always the pad from the row; with Num Lock off
it sends arrows for the pad.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from saythesum.dialogue.keys import Key, Pressed

HELD_MS = 120
"""Common practice: keyboards repeat a held key every 30 to 100 ms."""

_PIECE = re.compile(
    rb"""
      \x1b\[\[[A-E]                                   # F1 to F5 of the Linux console
    | \x1b\[[0-?]*[ -/]*[@-Z\\-~]                     # a control sequence (ECMA-48, 5.4)
    | \x1bO[0-9;]*[@-~]                               # a single shift and its key
    | \x1b[\]PX^_][^\x07\x1b]*(?:\x07|\x1b\\)         # a string of the terminal's own
    | \x1b[^\x1b\[O\]PX^_]                            # a key with Alt
    | \r\n
    | [^\x1b]
    """,
    re.VERBOSE | re.DOTALL,
)
_UNFINISHED = re.compile(rb"\x1b(?:\[(?:\[|[0-?]*[ -/]*)|O[0-9;]*|[\]PX^_][^\x07\x1b]*(?:\x1b\Z)?)?")


def decoded(data: bytes, at_ms: int, *, is_over: bool = False) -> tuple[list[Pressed], bytes]:
    """The presses, and the beginning of a sequence that is still to come.

    With `is_over` nothing comes any more: an Escape by itself is the key. What means nothing is swallowed whole.
    """
    presses: list[Pressed] = []
    at = 0
    while at < len(data):
        piece = _PIECE.match(data, at)
        if piece is None:
            piece = _UNFINISHED.match(data, at)
            assert piece is not None, "only an Escape begins more than one byte"
            if piece.end() == len(data) and not is_over:
                return presses, data[at:]
        press = _press(piece.group(), at_ms)
        if press:
            presses.append(press)
        at = piece.end()
    return presses, b""


def _press(piece: bytes, at_ms: int) -> Pressed | None:
    if len(piece) == 1 and piece.isdigit():
        return Pressed(Key.DIGIT, at_ms, digit=int(piece))
    if piece.startswith(b"\x1bO") and piece[-1:] in _PAD_DIGITS:
        return Pressed(Key.DIGIT, at_ms, digit=_PAD_DIGITS.index(piece[-1:]))
    key = _KEYS.get(piece)
    return Pressed(key, at_ms) if key else None


_PAD_DIGITS = b"pqrstuvwxy"
"""The pad's digits in a terminal that tells them from the row. Source: xterm's control sequences, VT220 keys."""

_KEYS: Mapping[bytes, Key] = {
    **{b"\r": Key.ENTER, b"\n": Key.ENTER, b"\r\n": Key.ENTER, b"\x1bOM": Key.ENTER},
    **{b"\x7f": Key.BACKSPACE, b"\x08": Key.BACKSPACE, b"-": Key.BACKSPACE, b"\x1bOm": Key.BACKSPACE},
    **{b" ": Key.SPACE, b"*": Key.SAY_AGAIN, b"\x1bOj": Key.SAY_AGAIN},
    **{b"+": Key.HELP, b"\x1bOk": Key.HELP, b"\x1b[6~": Key.HELP},
    **{b".": Key.WHERE_AM_I, b"\x1bOn": Key.WHERE_AM_I, b"\x1b[5~": Key.WHERE_AM_I},
    **{b"\t": Key.TAB, b"\x1b[Z": Key.SHIFT_TAB, b"\x1b\t": Key.SHIFT_TAB},
    **{b"\x1b": Key.ESCAPE, b"\x03": Key.STOP, b"\x04": Key.CLOSE},
    **{b"\x1b[" + sign: key for sign, key in ((b"A", Key.UP), (b"B", Key.DOWN), (b"C", Key.RIGHT), (b"D", Key.LEFT))},
    **{b"\x1bO" + sign: key for sign, key in ((b"A", Key.UP), (b"B", Key.DOWN), (b"C", Key.RIGHT), (b"D", Key.LEFT))},
    **dict.fromkeys((b"\x1b[H", b"\x1bOH", b"\x1b[1~", b"\x1b[7~"), Key.HOME),
    **dict.fromkeys((b"\x1b[F", b"\x1bOF", b"\x1b[4~", b"\x1b[8~"), Key.END),
    **dict.fromkeys((b"\x1bOP", b"\x1b[11~", b"\x1b[[A", b"\x1b[P"), Key.KEYS_ALOUD),
    **dict.fromkeys((b"\x1b[20~", b"\x1b[13;5u", b"\x1b[27;5;13~"), Key.ADULT),
}
"""Source: terminfo's entries for the common terminals (a test compares them), and xterm's control sequences."""


def held_marked(presses: Iterable[Pressed]) -> Iterator[Pressed]:
    """A key that acts, and comes again at the pace of a held one, is still held. Digits and rubbing out are typed."""
    before: Pressed | None = None
    for press in presses:
        comes_quickly = before is not None and before.key is press.key and press.at_ms - before.at_ms < HELD_MS
        before = press
        yield replace(press, is_repeat=comes_quickly and press.key not in _TYPED)


_TYPED = frozenset({Key.DIGIT, Key.BACKSPACE, Key.ENTER, Key.TAB, Key.SHIFT_TAB})
