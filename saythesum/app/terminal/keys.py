"""Keys from a plain terminal, or from a pipe; the terminal is put back as it was."""

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from typing import NoReturn, TextIO, TypeAlias

from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.terminal_bytes import F_NUMBERS, decoded, held_marked

NowMs: TypeAlias = Callable[[], int]

ESCAPE_WAIT_S = 0.05
"""The rest of a sequence comes with its Escape, or this soon after it."""
_BLOCK = 1024


@contextmanager
def keys_from(stdin: TextIO | None, now_ms: NowMs, keymap: Keymap = EVERYBODYS) -> Iterator[Iterator[Pressed]]:
    """Presses until the input ends. A terminal is put back as it was, whatever happens, a kill -9 excepted.

    A pipe or a file is read in the same way. Ctrl and C is a key here, and so is an interrupt sent by a program.
    """
    descriptor = _descriptor(stdin)
    if descriptor is None:
        yield iter(())
    elif sys.platform == "win32":
        is_console = os.isatty(descriptor)
        yield held_marked(_windows_presses(now_ms, keymap)) if is_console else _read_through(descriptor, now_ms, keymap)
    else:
        with _signals() as signals:
            presses = _presses(descriptor, signals, now_ms, keymap)
            if os.isatty(descriptor):
                with _key_by_key(descriptor):
                    yield held_marked(presses)
            else:
                yield presses


def _descriptor(stdin: TextIO | None) -> int | None:
    """A program without a console has no input at all, or one that is closed."""
    try:
        return stdin.fileno() if stdin else None
    except (OSError, ValueError):
        return None


def _presses(descriptor: int, signals: "_Signals", now_ms: NowMs, keymap: Keymap) -> Iterator[Pressed]:
    import select

    unfinished = b""
    while True:
        with signals.in_use:
            if signals.are_over:
                return
            ready, _, _ = select.select([signals.reading, descriptor], [], [], ESCAPE_WAIT_S if unfinished else None)
            came = os.read(signals.reading, _BLOCK) if signals.reading in ready else b""
            data = _read(descriptor) if ready and not came else b""
        if came:
            if signal.SIGINT in came:
                yield Pressed(Key.STOP, now_ms())
            continue
        presses, unfinished = decoded(unfinished + data, now_ms(), keymap, is_over=not data)
        yield from presses
        if ready and not data:
            return


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
    try:
        termios.tcsetattr(descriptor, termios.TCSANOW, ours)
        yield
    finally:
        with suppress(termios.error):  # the terminal may be gone; what is still typed is for nobody
            termios.tcsetattr(descriptor, termios.TCSAFLUSH, before)


@dataclass
class _Signals:
    """`reading` has the number of each signal that has come, so that no wait for a key sleeps through one."""

    reading: int
    in_use: threading.Lock = field(default_factory=threading.Lock)
    """Held while somebody waits, maybe in another thread than the one that ends it."""
    are_over: bool = False


@contextmanager
def _signals() -> Iterator[_Signals]:
    reading, writing = os.pipe()
    os.set_blocking(writing, False)
    signals = _Signals(reading)
    try:
        if threading.current_thread() is threading.main_thread():
            with _handled(writing):
                yield signals
        else:  # signals go to the main thread
            yield signals
    finally:
        signals.are_over = True
        os.write(writing, b"\0")
        with signals.in_use:
            os.close(reading)
            os.close(writing)


@contextmanager
def _handled(woken: int) -> Iterator[None]:
    """An interrupt waits for its turn and breaks nothing off. A kill, or a terminal that is closed, ends the program
    at once, by way of everything that has to be put right. What is ignored or handled already stays so.
    """
    usual = (signal.SIG_DFL, signal.default_int_handler)
    handlers = {signal.SIGINT: _waits_its_turn, signal.SIGTERM: _exit, signal.SIGHUP: _exit}
    before = {number: handler for number in handlers if (handler := signal.getsignal(number)) in usual}
    woken_before = signal.set_wakeup_fd(woken)
    try:
        for number in before:
            signal.signal(number, handlers[number])
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
        signal.set_wakeup_fd(woken_before)


def _waits_its_turn(_number: int, _frame: object) -> None:
    pass


def _exit(number: int, _frame: object) -> NoReturn:
    raise SystemExit(128 + number)


# ---- Windows: not tried -------------------------------------------------------------------------------

if sys.platform == "win32":
    import msvcrt

    _WINDOWS_KEYS = {
        **{"H": b"\x1b[A", "P": b"\x1b[B", "M": b"\x1b[C", "K": b"\x1b[D", "G": b"\x1b[H", "O": b"\x1b[F"},
        **{"I": b"\x1b[5~", "Q": b"\x1b[6~", "S": b"\x1b[3~", "\x0f": b"\x1b[Z"},
        **{chr(ord(";") + place): b"\x1b[%d~" % number for place, number in enumerate(F_NUMBERS[:10])},
        **{"\x85": b"\x1b[23~", "\x86": b"\x1b[24~"},
    }
    """The second code of a key without a character, as the same key's bytes elsewhere."""

    def _windows_presses(now_ms: NowMs, keymap: Keymap) -> Iterator[Pressed]:
        while True:
            try:
                sign = msvcrt.getwch()
                data = _WINDOWS_KEYS.get(msvcrt.getwch(), b"") if sign in "\x00\xe0" else sign.encode()
            except KeyboardInterrupt:
                data = b"\x03"
            # Ctrl and Z ends the input there.
            presses, _ = decoded(b"\x04" if data == b"\x1a" else data, now_ms(), keymap, is_over=True)
            yield from presses

    def _read_through(descriptor: int, now_ms: NowMs, keymap: Keymap) -> Iterator[Pressed]:
        unfinished = b""
        while data := _read(descriptor):
            presses, unfinished = decoded(unfinished + data, now_ms(), keymap)
            yield from presses
        yield from decoded(unfinished, now_ms(), keymap, is_over=True)[0]
