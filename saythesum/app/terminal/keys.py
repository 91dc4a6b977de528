"""Keys from a plain terminal, or from a pipe, on whatever system this is."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import Pressed


@contextmanager
def keys_from(
    stdin: TextIO | None, now_ms: Callable[[], int], keymap: Keymap = EVERYBODYS
) -> Iterator[Iterator[Pressed]]:
    """Presses until the input ends. A terminal is put back as it was, whatever happens, a kill -9 excepted.

    A pipe or a file is read in the same way. Ctrl and C is a key here, and so is an interrupt sent by a program.
    """
    descriptor = _descriptor(stdin)
    if descriptor is None:
        yield iter(())
        return
    if sys.platform == "win32":
        from saythesum.app.terminal.windows_keys import presses_from
    else:
        from saythesum.app.terminal.posix_keys import presses_from
    with presses_from(descriptor, now_ms, keymap) as presses:
        yield presses


def _descriptor(stdin: TextIO | None) -> int | None:
    """A program without a console has no input at all, or one that is closed."""
    try:
        return stdin.fileno() if stdin else None
    except (OSError, ValueError):
        return None
