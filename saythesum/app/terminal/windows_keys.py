"""Keys from a Windows console, or from a pipe. Not tried."""

import msvcrt
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

from saythesum.keyboard.keymap import Keymap
from saythesum.keyboard.keys import Pressed
from saythesum.keyboard.terminal_bytes import F_NUMBERS, decoded, held_keys_marked

assert sys.platform == "win32"  # the type checker reads this module for Windows only

_BLOCK_BYTES = 1024
_KEYS = {
    **{"H": b"\x1b[A", "P": b"\x1b[B", "M": b"\x1b[C", "K": b"\x1b[D", "G": b"\x1b[H", "O": b"\x1b[F"},
    **{"I": b"\x1b[5~", "Q": b"\x1b[6~", "S": b"\x1b[3~", "\x0f": b"\x1b[Z"},
    **{chr(ord(";") + place): b"\x1b[%d~" % number for place, number in enumerate(F_NUMBERS[:10])},
    **{"\x85": b"\x1b[23~", "\x86": b"\x1b[24~"},
}
"""The second code of a key without a character, as the same key's bytes elsewhere."""


@contextmanager
def presses_from(descriptor: int, now_ms: Callable[[], int], keymap: Keymap) -> Iterator[Iterator[Pressed]]:
    if os.isatty(descriptor):
        yield held_keys_marked(_from_console(now_ms, keymap))
    else:
        yield _from_pipe(descriptor, now_ms, keymap)


def _from_console(now_ms: Callable[[], int], keymap: Keymap) -> Iterator[Pressed]:
    while True:
        try:
            sign = msvcrt.getwch()
            data = _KEYS.get(msvcrt.getwch(), b"") if sign in "\x00\xe0" else sign.encode()
        except KeyboardInterrupt:
            data = b"\x03"
        # Ctrl and Z ends the input there.
        presses, _ = decoded(b"\x04" if data == b"\x1a" else data, now_ms(), keymap, is_over=True)
        yield from presses


def _from_pipe(descriptor: int, now_ms: Callable[[], int], keymap: Keymap) -> Iterator[Pressed]:
    unfinished = b""
    with suppress(OSError):  # a pipe that has gone away is an end, too
        while data := os.read(descriptor, _BLOCK_BYTES):
            presses, unfinished = decoded(unfinished + data, now_ms(), keymap)
            yield from presses
    yield from decoded(unfinished, now_ms(), keymap, is_over=True)[0]
