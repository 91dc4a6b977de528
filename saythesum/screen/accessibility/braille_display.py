"""A line of our own on a braille display, through BrlAPI, and the keys of the display.

Only while the window has the keyboard: a line of our own hides that of a screen reader. Where the display, its server
or the module is missing, or goes away, the practice goes on without; while the window has the keyboard it is looked
for again. The server sees to several displays: one is the current one.
Source: BrlAPI's reference (the functions named here) and brlapi_keycodes.h.
"""

import importlib
import importlib.util
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from saythesum.keyboard.keymap import Keymap
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.scan_codes import presses_of_text
from saythesum.scene.braille_line import BrailleLine
from saythesum.wording.braille.own_encoder import encoded

DEBIANS = "/usr/lib/python3/dist-packages"
"""PyPI has no such module; Debian's is there for Debian's own Python, and fits others of its version."""
LOOK_AGAIN_MS = 5_000
_KEYSYMS = {0xFF0D: Key.ENTER, 0xFF08: Key.BACKSPACE, 0xFF09: Key.TAB, 0xFF1B: Key.ESCAPE} | {
    **{0xFF51: Key.LEFT, 0xFF52: Key.UP, 0xFF53: Key.RIGHT, 0xFF54: Key.DOWN, 0xFF50: Key.HOME, 0xFF57: Key.END},
    **{0xFF55: Key.WHERE_AM_I, 0xFF56: Key.HELP, 0x20: Key.SPACE},
}
"""Keys that a display sends as X names them. Source: X11/keysymdef.h."""
_CURSOR_DOTS = 0xC0
"""Dots 7 and 8."""
_TYPE, _BLOCK, _ARGUMENT = 0xE0000000, 0x1FFF0000, 0x0000FFFF
_IS_COMMAND = 0x20000000
_SYMBOL = 0x1FFFFFFF
_BRAILLE = 0x01002800
"""A braille pattern as a symbol: the dots are its last eight bits."""
_ROUTE = 0x00010000
_LEFT_WINDOW, _RIGHT_WINDOW = 0x17, 0x18


def module() -> Any:
    """BrlAPI's binding; None where there is none for this Python."""
    try:
        return importlib.import_module("brlapi")
    except ImportError:
        pass
    for found in Path(DEBIANS).glob("brlapi.*.so"):
        spec = importlib.util.spec_from_file_location("brlapi", found)
        try:
            assert spec is not None and spec.loader is not None
            loaded = importlib.util.module_from_spec(spec)
            spec.loader.exec_module(loaded)
        except ImportError:
            continue
        return loaded
    return None


class BrailleDisplay:
    """For one thread. No call raises."""

    def __init__(self, now_ms: Callable[[], int], keymap: Keymap) -> None:
        self._module = module()
        self._now_ms, self._keymap = now_ms, keymap
        self._connection: Any = None
        self._line = BrailleLine("")
        self._first = 0
        """The cell of the line with which the display begins."""
        self._is_wanted = False
        self._look_again_ms = 0
        self._routed: list[int] = []

    def want(self, *, is_wanted: bool) -> None:
        """Whether the line is ours just now: the window has the keyboard."""
        if is_wanted == self._is_wanted:
            return
        self._is_wanted, self._look_again_ms = is_wanted, 0
        if is_wanted:
            self._open()
        else:
            self._close()

    def show(self, line: BrailleLine) -> None:
        if line != self._line:
            self._line, self._first = line, 0
            self._write()

    def look(self) -> tuple[list[Pressed], list[int]]:
        """What was pressed, and the columns of the open grid that were chosen by cell routing."""
        presses: list[Pressed] = []
        if self._is_wanted and self._connection is None and self._now_ms() >= self._look_again_ms:
            self._open()
        while self._connection is not None and (code := self._read()) is not None:
            presses += self._pressed(code)
        routed, self._routed = self._routed, []
        return presses, routed

    # ---- the display

    def _open(self) -> None:
        self._look_again_ms = self._now_ms() + LOOK_AGAIN_MS
        if self._module is None:
            return
        try:
            self._connection = self._module.Connection()
            self._connection.enterTtyModeWithPath([])
            self._write()
        except Exception:
            self._lose()

    def _close(self) -> None:
        connection, self._connection = self._connection, None
        if connection is not None:
            try:
                connection.leaveTtyMode()
                connection.closeConnection()
            except Exception:
                return

    def _lose(self) -> None:
        self._connection = None

    def _write(self) -> None:
        if self._connection is None:
            return
        try:
            width = self._connection.displaySize[0]
            self._connection.writeDots(dots_of(self._line, self._first, width))
        except Exception:
            self._lose()

    def _read(self) -> int | None:
        try:
            code = self._connection.readKey(False)
        except Exception:
            self._lose()
            return None
        return int(code) if code else None

    def _pressed(self, code: int) -> Sequence[Pressed]:
        if code & _TYPE == _IS_COMMAND:
            self._command(code)
            return ()
        keysym = code & _SYMBOL
        at_ms = self._now_ms()
        if key := _KEYSYMS.get(keysym):
            return [Pressed(key, at_ms)]
        is_dots = keysym & ~0xFF == _BRAILLE
        letter = _letter_of_dots(keysym & 0x3F) if is_dots else chr(keysym) if keysym < 0x100 else ""
        return presses_of_text(letter, at_ms, self._keymap)

    def _command(self, code: int) -> None:
        if code & _BLOCK == _ROUTE:
            at = text_place(self._line, self._first + (code & _ARGUMENT))
            self._routed += [column for first, end, column in self._line.columns if first <= at < end]
        elif code & _BLOCK == 0 and code & _ARGUMENT in (_LEFT_WINDOW, _RIGHT_WINDOW):
            self._pan(1 if code & _ARGUMENT == _RIGHT_WINDOW else -1)

    def _pan(self, way: int) -> None:
        try:
            width = self._connection.displaySize[0]
        except Exception:
            self._lose()
            return
        first = self._first + way * width
        if 0 <= first < len(encoded(self._line.text)):
            self._first = first
            self._write()


def dots_of(line: BrailleLine, first: int, width: int) -> bytes:
    """Unified English Braille, a byte a cell (dot 1 is 1, dot 8 is 128), with dots 7 and 8 at the cursor."""
    cells = [ord(cell) - 0x2800 for cell in encoded(line.text)]
    if line.cursor is not None:
        cursor = len(encoded(line.text[: line.cursor]))
        cells += [0] * (cursor + 1 - len(cells))
        cells[cursor] |= _CURSOR_DOTS
    shown = cells[first : first + width]
    return bytes(shown + [0] * (width - len(shown)))


def text_place(line: BrailleLine, cell: int) -> int:
    """The character that a cell belongs to: its sign or its indicator."""
    return next((at for at in range(len(line.text)) if len(encoded(line.text[: at + 1])) > cell), len(line.text))


def _letter_of_dots(dots: int) -> str:
    return next((letter for letter in "abcdefghij" if ord(encoded(letter)) - 0x2800 == dots), "")
