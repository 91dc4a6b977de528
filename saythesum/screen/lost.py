"""Outliving an X server that goes away: Xlib's own answer is to end the whole program.

Its connection is looked at before it is used: once it is cut, SDL is not called any more. For the moment in between,
Xlib is told not to end the program.
Source: poll(2), POLLHUP; libX11 1.7 and later, XSetIOErrorExitHandler. Where that is missing, or the window is none of
X's, nothing is done: there the end of the server is the end of the program, with every row on disk.
"""

import atexit
import ctypes
from typing import Any

import pygame

_Handler = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p)
_ExitHandler = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_void_p)
_kept: list[object] = []
"""Xlib keeps only addresses of its handlers, so that they must live as long as the program."""


class Link:
    """The connection to the window's X server. To be made once the window is there."""

    def __init__(self) -> None:
        self._is_cut = False
        self._poll: Any = None
        display = pygame.display.get_wm_info().get("display")
        if pygame.display.get_driver() != "x11" or display is None:
            return
        try:
            xlib = ctypes.CDLL("libX11.so.6")
            self._survive(xlib, ctypes.c_void_p(_address(display)))
        except (OSError, AttributeError):
            return

    def is_cut(self) -> bool:
        if not self._is_cut and self._poll and self._poll.poll(0):
            self._note_cut()
        return self._is_cut

    def _survive(self, xlib: ctypes.CDLL, display: ctypes.c_void_p) -> None:
        import select

        def cut(*_display: Any) -> int:
            self._note_cut()
            return 0

        quiet, end = _Handler(cut), _ExitHandler(lambda *_display: None)
        xlib.XSetIOErrorExitHandler(display, end, None)
        xlib.XSetIOErrorHandler(quiet)
        _kept.extend((quiet, end))
        self._poll = select.poll()
        self._poll.register(xlib.XConnectionNumber(display), 0)  # of no interest but its end, which is always told

    def _note_cut(self) -> None:
        """SDL would wait for ever when it is to close a window of a server that is gone, also at the program's end."""
        self._is_cut = True
        atexit.unregister(pygame.quit)


def _address(capsule: object) -> int | None:
    python = ctypes.pythonapi
    python.PyCapsule_GetName.restype = ctypes.c_char_p
    python.PyCapsule_GetName.argtypes = [ctypes.py_object]
    python.PyCapsule_GetPointer.restype = ctypes.c_void_p
    python.PyCapsule_GetPointer.argtypes = [ctypes.py_object, ctypes.c_char_p]
    address: int | None = python.PyCapsule_GetPointer(capsule, python.PyCapsule_GetName(capsule))
    return address
