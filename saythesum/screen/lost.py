"""Outliving an X server that goes away: Xlib's own answer is to end the whole program.

Source: libX11 1.7 and later, XSetIOErrorExitHandler. Where that is missing, or the window is none of X's, nothing is
done: there the end of the server is the end of the program, with every row on disk.
"""

import atexit
import ctypes
from collections.abc import Callable
from typing import Any

import pygame

_Handler = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p)
_ExitHandler = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_void_p)
_kept: list[object] = []
"""Xlib keeps only addresses of its handlers, so that they must live as long as the program."""


def watch(note_lost: Callable[[], None]) -> None:
    """Call `note_lost` when the window's X server goes away. To be called once the window is there."""
    display = pygame.display.get_wm_info().get("display")
    if pygame.display.get_driver() != "x11" or display is None:
        return
    try:
        xlib = ctypes.CDLL("libX11.so.6")
        xlib.XSetIOErrorExitHandler  # noqa: B018  it is missing in older ones
    except (OSError, AttributeError):
        return

    def lost(*_display: Any) -> int:
        note_lost()
        return 0

    quiet, end = _Handler(lost), _ExitHandler(lambda *_display: None)
    _kept.extend((quiet, end))
    xlib.XSetIOErrorHandler.argtypes = [_Handler]
    xlib.XSetIOErrorHandler(quiet)
    xlib.XSetIOErrorExitHandler.argtypes = [ctypes.c_void_p, _ExitHandler, ctypes.c_void_p]
    xlib.XSetIOErrorExitHandler(_address(display), end, None)


def leave_as_it_is() -> None:
    """SDL waits for ever when it is to close a window of a server that is gone: not even at the program's end."""
    atexit.unregister(pygame.quit)


def _address(capsule: object) -> int | None:
    python = ctypes.pythonapi
    python.PyCapsule_GetName.restype = ctypes.c_char_p
    python.PyCapsule_GetName.argtypes = [ctypes.py_object]
    python.PyCapsule_GetPointer.restype = ctypes.c_void_p
    python.PyCapsule_GetPointer.argtypes = [ctypes.py_object, ctypes.c_char_p]
    address: int | None = python.PyCapsule_GetPointer(capsule, python.PyCapsule_GetName(capsule))
    return address
