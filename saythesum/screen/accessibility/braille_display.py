"""A line of our own on a braille display, through BrlAPI, and the keys of the display.

Only while the window has the keyboard: a line of our own hides that of a screen reader. Where the display, its server
or the module is missing, or goes away, the practice goes on without; while the window has the keyboard it is looked
for again. The server sees to several displays: one is the current one. A server may also never answer, so a thread
talks to it that can be left behind.
Source: BrlAPI's reference (the functions named here) and brlapi_keycodes.h.
"""

import importlib
import importlib.util
from collections import deque
from collections.abc import Callable, Sequence
from pathlib import Path
from threading import Event, Thread
from typing import Any

from saythesum.keyboard.keymap import Keymap
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.scan_codes import presses_of_text
from saythesum.scene.braille_line import BrailleLine
from saythesum.scene.number_pad import CellChosen
from saythesum.screen.accessibility.braille_cells import count_of_cells, dots_of, text_place
from saythesum.wording.braille.own_encoder import encoded

DEBIANS = "/usr/lib/python3/dist-packages"
"""PyPI has no such module; Debian's is there for Debian's own Python, and fits others of its version."""
LOOK_AGAIN_S = 2.0
_KEYS_EVERY_S = 0.02
_LONGEST_GOODBYE_S = 0.5
_KEYSYMS = {0xFF0D: Key.ENTER, 0xFF08: Key.BACKSPACE, 0xFF09: Key.TAB, 0xFF1B: Key.ESCAPE} | {
    **{0xFF51: Key.LEFT, 0xFF52: Key.UP, 0xFF53: Key.RIGHT, 0xFF54: Key.DOWN, 0xFF50: Key.HOME, 0xFF57: Key.END},
    **{0xFF55: Key.WHERE_AM_I, 0xFF56: Key.HELP, 0x20: Key.SPACE},
}
"""Keys that a display sends as X names them. Source: X11/keysymdef.h."""
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
    """For one thread. Its calls return at once, and none raises."""

    def __init__(self, now_ms: Callable[[], int], keymap: Keymap) -> None:
        self.wake: Callable[[], None] = lambda: None
        """Called from another thread when something was pressed."""
        self._server = _Server(now_ms, keymap, self._pressed)
        self._presses: deque[Pressed | CellChosen] = deque()

    def want(self, *, is_wanted: bool) -> None:
        """Whether the line is ours just now: the window has the keyboard."""
        self._server.want(is_wanted=is_wanted)

    def show(self, line: BrailleLine) -> None:
        self._server.show(line)

    def look(self) -> list[Pressed | CellChosen]:
        """What was pressed since the last look, and the cells of the open grid that were chosen by cell routing."""
        return [self._presses.popleft() for _ in range(len(self._presses))]

    def close(self) -> None:
        """The display is given back, unless its server does not answer."""
        self._server.close()

    def _pressed(self, presses: Sequence[Pressed | CellChosen]) -> None:
        self._presses.extend(presses)
        self.wake()


class _Server:
    """The connection, in a thread that begins when the line is wanted for the first time."""

    def __init__(
        self, now_ms: Callable[[], int], keymap: Keymap, pressed: Callable[[Sequence[Pressed | CellChosen]], None]
    ) -> None:
        self._now_ms, self._keymap, self._tell = now_ms, keymap, pressed
        self._thread: Thread | None = None
        self._stirred = Event()
        self._is_wanted = self._is_over = False
        self._line = BrailleLine("")
        # Only the thread uses what follows.
        self._module: Any = None
        self._connection: Any = None
        self._shown: BrailleLine | None = None
        self._first = 0
        """The cell of the line with which the display begins."""

    def want(self, *, is_wanted: bool) -> None:
        if is_wanted == self._is_wanted:
            return
        self._is_wanted = is_wanted
        if self._thread is None:
            self._thread = Thread(target=self._serve, name="braille display", daemon=True)
            self._thread.start()
        self._stirred.set()

    def show(self, line: BrailleLine) -> None:
        if line != self._line:
            self._line = line
            self._stirred.set()

    def close(self) -> None:
        self._is_wanted, self._is_over = False, True
        self._stirred.set()
        if self._thread:
            self._thread.join(_LONGEST_GOODBYE_S)

    # ---- the thread

    def _serve(self) -> None:
        self._module = module()
        if self._module is None:
            return
        while not self._is_over:
            try:
                self._follow()
            except Exception:  # the module's own errors: the display, its server or the connection has gone
                self._connection = None
            self._stirred.wait(self._rest_s())
            self._stirred.clear()
        self._leave()

    def _rest_s(self) -> float | None:
        if self._connection is not None:
            return _KEYS_EVERY_S
        return LOOK_AGAIN_S if self._is_wanted else None

    def _follow(self) -> None:
        if not self._is_wanted:
            self._leave()
            return
        if self._connection is None:
            connection = self._module.Connection()
            connection.enterTtyModeWithPath([])
            self._connection, self._shown = connection, None
        if self._line is not self._shown:
            self._shown, self._first = self._line, 0
            self._write(self._shown)
        while code := self._connection.readKey(False):
            if presses := self._presses_of(int(code), self._shown):
                self._tell(presses)

    def _leave(self) -> None:
        connection, self._connection = self._connection, None
        if connection is not None:
            try:
                connection.leaveTtyMode()
                connection.closeConnection()
            except Exception:
                return

    def _write(self, line: BrailleLine) -> None:
        self._connection.writeDots(dots_of(line, self._first, self._connection.displaySize[0]))

    def _presses_of(self, code: int, line: BrailleLine) -> Sequence[Pressed | CellChosen]:
        if code & _TYPE == _IS_COMMAND:
            return self._commanded(code, line)
        keysym = code & _SYMBOL
        at_ms = self._now_ms()
        if key := _KEYSYMS.get(keysym):
            return [Pressed(key, at_ms)]
        is_dots = keysym & ~0xFF == _BRAILLE
        letter = _letter_of_dots(keysym & 0x3F) if is_dots else chr(keysym) if keysym < 0x100 else ""
        return presses_of_text(letter, at_ms, self._keymap)

    def _commanded(self, code: int, line: BrailleLine) -> Sequence[CellChosen]:
        if code & _BLOCK == _ROUTE:
            at = text_place(line, self._first + (code & _ARGUMENT))
            return [cell for first, end, cell in line.cells if first <= at < end]
        if code & _BLOCK == 0 and code & _ARGUMENT in (_LEFT_WINDOW, _RIGHT_WINDOW):
            self._pan(1 if code & _ARGUMENT == _RIGHT_WINDOW else -1, line)
        return ()

    def _pan(self, way: int, line: BrailleLine) -> None:
        width = self._connection.displaySize[0]
        first = self._first + way * width
        if 0 <= first < count_of_cells(line, width):
            self._first = first
            self._write(line)


def _letter_of_dots(dots: int) -> str:
    return next((letter for letter in "abcdefghij" if ord(encoded(letter)) - 0x2800 == dots), "")
