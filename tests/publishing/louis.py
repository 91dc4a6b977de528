"""Debian's own binding of liblouis, which shares no code with ours: back from braille to print."""

import sys

sys.path.append("/usr/lib/python3/dist-packages")
import louis

from saythesum.wording.braille.cells import brf_of

UNCONTRACTED = ["en-ueb-g1.ctb"]
CONTRACTED = ["en-ueb-g2.ctb"]


def print_of(cells: str, tables: list[str] = UNCONTRACTED) -> str:
    """Cells to print, with the minus sign as our sheets write it."""
    came: str = louis.backTranslateString(tables, brf_of(cells).lower())
    return came.replace("-", "−")


def cells_by_louis(text: str, tables: list[str] = UNCONTRACTED) -> str:
    came: str = louis.translateString(tables, text, None, louis.dotsIO | louis.ucBrl)
    return came.replace(" ", "\u2800")
