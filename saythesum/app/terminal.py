"""The keys of a plain terminal, as far as it tells them: bytes in, presses out.

It does not tell the pad from the row, nor a key that is held from one pressed often; with Num Lock off it
takes the pad for arrows.
"""

import os
import re
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import replace
from typing import NoReturn, TextIO, TypeAlias

from saythesum.dialogue.keys import Key, Pressed

NowMs: TypeAlias = Callable[[], int]

ESCAPE_WAIT_S = 0.05
"""The rest of a sequence comes with its Escape, or this soon after it."""
HELD_MS = 120
"""Common practice: keyboards repeat a held key every 30 to 100 ms."""
_BLOCK = 1024

# ---- bytes --------------------------------------------------------------------------------------------

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
_UNFINISHED = re.compile(rb"\x1b(?:\[(?:\[|[0-?]*[ -/]*)|O[0-9;]*|[\]PX^_][^\x07\x1b]*\x1b?)?")


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

# ---- where the bytes come from ------------------------------------------------------------------------


@contextmanager
def keys_from(stdin: TextIO | None, now_ms: NowMs) -> Iterator[Iterator[Pressed]]:
    """Presses until the input ends. A terminal is put back as it was, whatever happens, a kill -9 excepted.

    A pipe or a file is read in the same way. Ctrl and C is a key here.
    """
    descriptor = _descriptor(stdin)
    if descriptor is None:
        yield iter(())
    elif not os.isatty(descriptor):
        yield _presses(descriptor, now_ms)
    elif sys.platform == "win32":
        yield held_marked(_windows_presses(now_ms))
    else:
        with _key_by_key(descriptor):
            yield held_marked(_presses(descriptor, now_ms))


def _descriptor(stdin: TextIO | None) -> int | None:
    """A program without a console has no input at all, or one that is closed."""
    try:
        return stdin.fileno() if stdin else None
    except (OSError, ValueError):
        return None


def _presses(descriptor: int, now_ms: NowMs) -> Iterator[Pressed]:
    unfinished = b""
    while True:
        try:
            if unfinished and not _more_comes(descriptor):
                presses, unfinished = decoded(unfinished, now_ms(), is_over=True)
                yield from presses
            data = _read(descriptor)
        except KeyboardInterrupt:
            yield Pressed(Key.STOP, now_ms())
            continue
        presses, unfinished = decoded(unfinished + data, now_ms(), is_over=not data)
        yield from presses
        if not data:
            return


def _more_comes(descriptor: int) -> bool:
    if sys.platform == "win32":
        return True  # `select` knows only sockets there; a file or a pipe is read to its end
    import select

    return bool(select.select([descriptor], [], [], ESCAPE_WAIT_S)[0])


def _read(descriptor: int) -> bytes:
    """b"" at the end; a terminal that has gone away is an end, too."""
    try:
        return os.read(descriptor, _BLOCK)
    except OSError:
        return b""


@contextmanager
def _key_by_key(descriptor: int) -> Iterator[None]:
    """Every key at once and unechoed; what is written stays as it is, so that lines are plain lines."""
    import termios

    before = termios.tcgetattr(descriptor)
    ours = termios.tcgetattr(descriptor)
    ours[0] &= ~(termios.ICRNL | termios.INLCR | termios.IGNCR | termios.IXON | termios.ISTRIP)
    ours[3] &= ~(termios.ICANON | termios.ECHO | termios.ISIG | termios.IEXTEN)
    ours[6][termios.VMIN], ours[6][termios.VTIME] = 1, 0
    with _killed_in_order():
        try:
            termios.tcsetattr(descriptor, termios.TCSANOW, ours)
            yield
        finally:
            with suppress(termios.error):  # the terminal may be gone; what is still typed is for nobody
                termios.tcsetattr(descriptor, termios.TCSAFLUSH, before)


@contextmanager
def _killed_in_order() -> Iterator[None]:
    """A kill, or a terminal that is closed, ends the program by way of everything that has to be put right."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    ours = [number for number in (signal.SIGTERM, signal.SIGHUP) if signal.getsignal(number) is signal.SIG_DFL]
    for number in ours:
        signal.signal(number, _exit)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, signal.SIG_DFL)


def _exit(number: int, _frame: object) -> NoReturn:
    raise SystemExit(128 + number)


# ---- Windows: not tried -------------------------------------------------------------------------------

if sys.platform == "win32":
    import msvcrt

    _WINDOWS_KEYS = {
        **{"H": b"\x1b[A", "P": b"\x1b[B", "M": b"\x1b[C", "K": b"\x1b[D", "G": b"\x1b[H", "O": b"\x1b[F"},
        **{"I": b"\x1b[5~", "Q": b"\x1b[6~", ";": b"\x1bOP", "C": b"\x1b[20~", "\x0f": b"\x1b[Z"},
    }
    """The second code of a key without a character, as the same key's bytes elsewhere."""

    def _windows_presses(now_ms: NowMs) -> Iterator[Pressed]:
        while True:
            try:
                sign = msvcrt.getwch()
                data = _WINDOWS_KEYS.get(msvcrt.getwch(), b"") if sign in "\x00\xe0" else sign.encode()
            except KeyboardInterrupt:
                data = b"\x03"
            # Ctrl and Z ends the input there.
            presses, _ = decoded(b"\x04" if data == b"\x1a" else data, now_ms(), is_over=True)
            yield from presses
