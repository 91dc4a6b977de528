"""liblouis, where the system has it: its shared library through ctypes, as there is no wheel of it.

Source of the calls: liblouis's own manual, "Programming with liblouis" (lou_translateString, lou_charSize).
"""

import ctypes
import ctypes.util
import os
from functools import cache
from typing import Any, Protocol

from saythesum.settings import BrailleCode
from saythesum.wording.braille.cells import BLANK

TABLES: dict[BrailleCode, str] = {"uncontracted": "en-ueb-g1.ctb", "contracted": "en-ueb-g2.ctb"}
_DOTS_AS_UNICODE = 4 | 64
"""dotsIO and ucBrl."""
_LONGER = 8
"""More cells than a character ever becomes."""


class Library(Protocol):
    """What is called of it, so that a test may stand in for one without tables."""

    def __getattr__(self, name: str) -> Any: ...


@cache
def library() -> Library | None:
    """None where it is not installed."""
    name = ctypes.util.find_library("louis") or ("liblouis.dll" if os.name == "nt" else None)
    if not name:
        return None
    try:
        loaded = ctypes.CDLL(name)
    except OSError:
        return None
    loaded.lou_setLogLevel(60_000)  # nothing on standard error: what is missing is told in our words
    return loaded


def translated(text: str, code: BrailleCode) -> str | None:
    """Cells; None where there is no liblouis, or it lacks the table."""
    louis = library()
    if louis is None:
        return None
    width = louis.lou_charSize()
    encoding = {2: "utf-16-le", 4: "utf-32-le"}[width]
    room = len(text) * _LONGER + 16
    came = ctypes.create_string_buffer(room * width)
    length, got = ctypes.c_int(len(text)), ctypes.c_int(room)
    is_done = louis.lou_translateString(
        TABLES[code].encode(),
        text.encode(encoding),
        *(ctypes.byref(length), came, ctypes.byref(got)),
        *(None, None, _DOTS_AS_UNICODE),
    )
    return came.raw[: got.value * width].decode(encoding).replace(" ", BLANK) if is_done else None
