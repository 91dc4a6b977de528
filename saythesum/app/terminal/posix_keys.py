"""Keys from a terminal as POSIX has it, or from a pipe; the terminal is put back as it was."""

import os
import select
import signal
import sys
import termios
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from typing import NoReturn

from saythesum.keyboard.keymap import Keymap
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.terminal_bytes import decoded, held_keys_marked

assert sys.platform != "win32"  # the type checker reads this module for the other systems only

ESCAPE_WAIT_S = 0.05
"""The rest of a sequence comes with its Escape, or this soon after it."""
_BLOCK_BYTES = 1024


@contextmanager
def presses_from(descriptor: int, now_ms: Callable[[], int], keymap: Keymap) -> Iterator[Iterator[Pressed]]:
    with _signals() as signals:
        presses = _presses(descriptor, signals, now_ms, keymap)
        if os.isatty(descriptor):
            with _key_by_key(descriptor):
                yield held_keys_marked(presses)
        else:
            yield presses


def _presses(descriptor: int, signals: "_Signals", now_ms: Callable[[], int], keymap: Keymap) -> Iterator[Pressed]:
    unfinished = b""
    while True:
        with signals.in_use:
            if signals.are_over:
                return
            ready, _, _ = select.select([signals.reading, descriptor], [], [], ESCAPE_WAIT_S if unfinished else None)
            came = os.read(signals.reading, _BLOCK_BYTES) if signals.reading in ready else b""
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
        return os.read(descriptor, _BLOCK_BYTES)
    except OSError:
        return b""


@contextmanager
def _key_by_key(descriptor: int) -> Iterator[None]:
    """Every key at once and unechoed; what is written stays as it is, so that lines are plain lines."""
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
