"""What of a line the cells of a display of some width show, and which character a cell belongs to."""

from saythesum.scene.braille_line import BrailleLine
from saythesum.wording.braille.own_encoder import encoded

_CURSOR_DOTS = 0xC0
"""Dots 7 and 8."""
_BLANKS_BETWEEN = 2


def dots_of(line: BrailleLine, first: int, width: int) -> bytes:
    """Unified English Braille, a byte a cell (dot 1 is 1, dot 8 is 128), with dots 7 and 8 at the cursor."""
    shown = _cells(line, width)[first : first + width]
    return bytes(shown + [0] * (width - len(shown)))


def count_of_cells(line: BrailleLine, width: int) -> int:
    return len(_cells(line, width))


def text_place(line: BrailleLine, cell: int) -> int:
    """The character that a cell belongs to: its sign or its indicator."""
    return next((at for at in range(len(line.text)) if len(encoded(line.text[: at + 1])) > cell), len(line.text))


def _cells(line: BrailleLine, width: int) -> list[int]:
    """What stands behind comes by panning where it would be cut off: "sum 1" may be a part of "sum 12"."""
    cells = _dots(line.text)
    if line.cursor is not None:
        cursor = len(encoded(line.text[: line.cursor]))
        cells += [0] * (cursor + 1 - len(cells))
        cells[cursor] |= _CURSOR_DOTS
    behind = _dots(line.behind)
    if not behind:
        return cells
    begins = max(len(cells), len(encoded(line.text)) + _BLANKS_BETWEEN)
    if begins + len(behind) > width:
        begins = width * -(-len(cells) // width)
    return cells + [0] * (begins - len(cells)) + behind


def _dots(text: str) -> list[int]:
    return [ord(cell) - 0x2800 for cell in encoded(text)]
