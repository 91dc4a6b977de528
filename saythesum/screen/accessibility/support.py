"""What of assistive software can be served on this machine, in a sentence each for the adult."""

import importlib.util
import sys

from saythesum.screen.accessibility.braille_display import module
from saythesum.screen.accessibility.listeners import bus_address

_PUBLISHED_NOWHERE = "the window cannot be read on this system yet; practise by ear, with the tool's own voice."
_NO_PACKAGE = "the window cannot be read: the package accesskit is missing. Install saythesum again."
_NO_BUS = "the window cannot be read: no accessibility bus answers. Install at-spi2-core, and log in with a desktop."
_CAN_BE_READ = "the window can be read."
_NO_MODULE = (
    "BrlAPI's module for this Python is missing (Debian calls it python3-brlapi); a screen reader's own braille works "
    "without it."
)
_NO_SERVER = "BrlAPI does not answer. Start BRLTTY, or leave braille to the screen reader."
_NO_DISPLAY = "BrlAPI answers, and no display is there. Plug one in, or leave braille to the screen reader."


def screen_reader_support() -> str:
    if sys.platform in ("win32", "darwin"):
        return _PUBLISHED_NOWHERE
    if importlib.util.find_spec("accesskit") is None:
        return _NO_PACKAGE
    return _CAN_BE_READ if bus_address() else _NO_BUS


def braille_support() -> str:
    brlapi = module()
    if brlapi is None:
        return _NO_MODULE
    try:
        connection = brlapi.Connection()
        cells = connection.displaySize[0]
        connection.closeConnection()
    except Exception:
        return _NO_SERVER
    return f"a display of {cells} cells is there." if cells else _NO_DISPLAY
