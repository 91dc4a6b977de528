"""The bytes that a terminal sends, as key presses.

A terminal does not distinguish a key that is held from one pressed repeatedly, nor always the pad from the digit row;
with Num Lock off it sends arrows for the pad.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import SWITCHES, Key, Pressed
from saythesum.settings.switch_names import LETTERS

HELD_MS = 120
"""Common practice: keyboards repeat a held key every 30 to 100 ms."""
SWITCH_HELD_MS = 1_000
"""The first repeat comes later, and a switch that is held must not choose twice. Source: IBM PS/2 technical reference,
keyboard: the delay can be set from 250 to 1,000 ms (from memory).
"""

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


_ARROWS = {"Up": b"A", "Down": b"B", "Right": b"C", "Left": b"D"}
F_NUMBERS = (11, 12, 13, 14, 15, 17, 18, 19, 20, 21, 23, 24, 25, 26, 28, 29, 31, 32, 33, 34)
"""The numbers of F1 to F20. Source: DEC VT220, which skips some."""


def _f_keys() -> Mapping[str, tuple[bytes, ...]]:
    keys = {f"F{place}": [b"\x1b[%d~" % number] for place, number in enumerate(F_NUMBERS, start=1)}
    for place, sign in enumerate((b"P", b"Q", b"R", b"S"), start=1):
        keys[f"F{place}"] += [b"\x1bO" + sign, b"\x1b[" + sign]
    for place, sign in enumerate((b"A", b"B", b"C", b"D", b"E"), start=1):
        keys[f"F{place}"] += [b"\x1b[[" + sign]
    return {name: tuple(pieces) for name, pieces in keys.items()}


def decoded(
    data: bytes, at_ms: int, keymap: Keymap = EVERYBODYS, *, is_over: bool = False
) -> tuple[list[Pressed], bytes]:
    """The presses, and the start of a sequence whose rest has not arrived yet.

    With `is_over` nothing more will arrive, so a lone Escape is the key. Unknown sequences are skipped whole.
    """
    presses: list[Pressed] = []
    at = 0
    while at < len(data):
        piece = _PIECE.match(data, at)
        if piece is None:
            piece = _UNFINISHED.match(data, at)
            assert piece is not None, "only an Escape starts a sequence of several bytes"
            if piece.end() == len(data) and not is_over:
                return presses, data[at:]
        press = _press(piece.group(), at_ms, keymap)
        if press:
            presses.append(press)
        at = piece.end()
    return presses, b""


def _press(piece: bytes, at_ms: int, keymap: Keymap) -> Pressed | None:
    name = _NAMES.get(piece) or _letter(piece)
    if switch := keymap.switch_of(name):
        return Pressed(switch[0], at_ms, name=switch[1])
    key = _KEYS.get(piece) or keymap.keys.get(name)
    if key:
        return Pressed(key, at_ms)
    sign = name[-1:] if name in _PAD else piece.decode("ascii", "replace")
    if len(sign) == 1 and sign.isdigit():
        return Pressed(Key.DIGIT, at_ms, digit=int(sign))
    letter = keymap.digit_of(sign)
    return None if letter is None else Pressed(Key.DIGIT, at_ms, digit=letter, is_letter=True)


def _letter(piece: bytes) -> str:
    sign = piece.decode("ascii", "replace").upper()
    return sign if sign in LETTERS else ""


_PAD = tuple(f"pad {digit}" for digit in range(10))
_SEQUENCES: Mapping[str, tuple[bytes, ...]] = {
    **{"Enter": (b"\r", b"\n", b"\r\n"), "pad enter": (b"\x1bOM",), "Backspace": (b"\x7f", b"\x08")},
    **{"Tab": (b"\t",), "Space": (b" ",), "Escape": (b"\x1b",), "Delete": (b"\x1b[3~",)},
    **{"Page Up": (b"\x1b[5~",), "Page Down": (b"\x1b[6~",)},
    "Home": (b"\x1b[H", b"\x1bOH", b"\x1b[1~", b"\x1b[7~"),
    "End": (b"\x1b[F", b"\x1bOF", b"\x1b[4~", b"\x1b[8~"),
    **{name: (b"\x1b[" + sign, b"\x1bO" + sign) for name, sign in _ARROWS.items()},
    **{"pad minus": (b"-", b"\x1bOm"), "pad star": (b"*", b"\x1bOj"), "pad plus": (b"+", b"\x1bOk")},
    **{"pad dot": (b".", b"\x1bOn"), "pad slash": (b"/", b"\x1bOo"), "pad equals": (b"=", b"\x1bOX")},
    **{name: (b"\x1bO" + bytes([ord("p") + digit]),) for digit, name in enumerate(_PAD)},
    **_f_keys(),
}
"""The sequences of the keys that have names. The pad's digits only come from a terminal that distinguishes them.

Source: terminfo's entries for the common terminals (a test compares them), and xterm's control sequences.
"""
_NAMES = {piece: name for name, pieces in _SEQUENCES.items() for piece in pieces}
_KEYS: Mapping[bytes, Key] = {
    **dict.fromkeys((b"\x1b[Z", b"\x1b\t"), Key.SHIFT_TAB),
    **dict.fromkeys((b"\x1b[13;5u", b"\x1b[27;5;13~"), Key.ADULT),
    **{b"\x03": Key.STOP, b"\x04": Key.CLOSE},
}
"""Chords."""


def held_keys_marked(presses: Iterable[Pressed]) -> Iterator[Pressed]:
    """Marks a key as held when it comes again as fast as keyboards repeat. Keys used for typing are never marked.

    No terminal says when a key is let go: a switch is taken to be let go at once.
    """
    before: Pressed | None = None
    for press in presses:
        held_ms = SWITCH_HELD_MS if press.key in SWITCHES else HELD_MS
        comes_quickly = before is not None and before.key is press.key and press.at_ms - before.at_ms < held_ms
        before = press
        yield replace(press, is_repeat=comes_quickly and press.key not in _TYPED)
        if press.key in SWITCHES:
            yield replace(press, is_let_go=True)


_TYPED = frozenset({Key.DIGIT, Key.BACKSPACE, Key.ENTER, Key.TAB, Key.SHIFT_TAB})
