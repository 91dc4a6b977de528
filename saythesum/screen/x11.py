"""Outliving an X server that goes away: Xlib's own answer is to end the whole program.

Until the window is there, a thread of its own opens it: where the server goes in the middle of that, the thread stays
behind in Xlib's call for help, which would end the program if it ever came back. Once the window is there, its
connection is looked at before it is used, and when it is cut, SDL is not called any more; for the moment in between,
Xlib is told not to end the program.
Source: poll(2), POLLHUP; libX11 1.7 and later, XSetIOErrorExitHandler. Where that is missing, or the
window does not belong to X, nothing is done: there the program ends with the server, and every row is on disk.
"""

import atexit
import ctypes
import sys
import threading
from collections.abc import Callable
from queue import SimpleQueue
from typing import Any, TypeVar

import pygame

from saythesum.errors import ScreenError

Made = TypeVar("Made")
_Handler = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p)
_ExitHandler = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_void_p)
_kept: list[object] = []
"""Xlib keeps only addresses of its handlers, so that they must live as long as the program."""
_gone = threading.Event()
"""No window can be opened any more: SDL holds on to the server that has gone."""


class _GoneError(ScreenError):
    def __init__(self) -> None:
        super().__init__(
            "The screen has gone away: go on by voice, or start again with practise --by keys. Every answer is kept."
        )


def opened(open_window: Callable[[], Made]) -> Made:
    """What `open_window` gives. Raises ScreenError where the X server has gone, or goes in the middle of it."""
    if _gone.is_set():
        raise _GoneError
    xlib = _xlib()
    if xlib is None:
        return open_window()
    outcomes: SimpleQueue[Made | Exception] = SimpleQueue()

    def open_it() -> None:
        try:
            outcomes.put(open_window())
        except Exception as error:
            outcomes.put(error)

    def stay_behind(*_display: Any) -> int:
        outcomes.put(_GoneError())
        threading.Event().wait()
        return 0

    _handle(xlib, stay_behind)
    threading.Thread(target=open_it, name="opening the window", daemon=True).start()
    outcome = outcomes.get()
    if isinstance(outcome, _GoneError):
        _note_gone()
    if isinstance(outcome, Exception):
        raise outcome
    return outcome


class Link:
    """The connection to the window's X server. To be made once the window is there."""

    def __init__(self) -> None:
        self._poll: Any = None
        display = pygame.display.get_wm_info().get("display")
        xlib = _xlib()
        if xlib is None or pygame.display.get_driver() != "x11" or display is None:
            return
        self._survive(xlib, ctypes.c_void_p(_address(display)))

    def check(self) -> None:
        """Before anything that goes to the screen: cut, that would end the program. Raises ScreenError where it is."""
        if self.is_cut():
            raise _GoneError

    def is_cut(self) -> bool:
        if not _gone.is_set() and self._poll and self._poll.poll(0):
            _note_gone()
        return _gone.is_set()

    def _survive(self, xlib: ctypes.CDLL, display: ctypes.c_void_p) -> None:
        import select

        def cut(*_display: Any) -> int:
            _note_gone()
            return 0

        end = _ExitHandler(lambda *_display: None)
        _kept.append(end)
        xlib.XSetIOErrorExitHandler(display, end, None)
        _handle(xlib, cut)
        if sys.platform != "win32":  # which has neither X nor poll
            self._poll = select.poll()
            self._poll.register(xlib.XConnectionNumber(display), 0)  # no event asked for: its end is always reported


def _xlib() -> ctypes.CDLL | None:
    """The library that SDL uses; None where it is missing or too old."""
    try:
        xlib = ctypes.CDLL("libX11.so.6")
    except OSError:
        return None
    return xlib if hasattr(xlib, "XSetIOErrorExitHandler") else None


def _handle(xlib: ctypes.CDLL, answer: Callable[..., int]) -> None:
    handler = _Handler(answer)
    _kept.append(handler)
    xlib.XSetIOErrorHandler(handler)


def _note_gone() -> None:
    """SDL would wait for ever when it is to close a window of a server that is gone, also at the program's end."""
    _gone.set()
    atexit.unregister(pygame.quit)


def _address(capsule: object) -> int | None:
    python = ctypes.pythonapi
    python.PyCapsule_GetName.restype = ctypes.c_char_p
    python.PyCapsule_GetName.argtypes = [ctypes.py_object]
    python.PyCapsule_GetPointer.restype = ctypes.c_void_p
    python.PyCapsule_GetPointer.argtypes = [ctypes.py_object, ctypes.c_char_p]
    address: int | None = python.PyCapsule_GetPointer(capsule, python.PyCapsule_GetName(capsule))
    return address
