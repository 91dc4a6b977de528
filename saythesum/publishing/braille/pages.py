"""Lines of braille to pages with running heads, and pages to a file for embossers (BRF).

The head has the title and, at the right end, the page's number. Source of the place: UKAAF practice for UEB (from
memory). A file has CR and LF after each line and a form feed after each page, as embossers expect: common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saythesum.errors import CallerError
from saythesum.wording.braille.cells import BLANK, brf_of

NUMBER_APART = 3
"""Blank cells at least between title and page number."""


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that belong together. Where a page ends within the body, the head is repeated on the next one."""

    body: tuple[str, ...]
    head: tuple[str, ...] = ()
    is_whole: bool = False
    """Not broken where a page has room for it."""


@dataclass(frozen=True, slots=True)
class PageSize:
    cells: int
    lines: int


def paged(title: str, number_of: Sequence[str], blocks: Sequence[Block], size: PageSize) -> tuple[tuple[str, ...], ...]:
    """`number_of`: the cells of each page number from 1 on, as many as there could be. Raises CallerError where a line
    is too long, or a page too short for a head and two lines."""
    for block in blocks:
        _check_fits(block, size)
    pages: list[list[str]] = []
    for block in blocks:
        body = list(block.body)
        together = min(len(body) if block.is_whole else _KEPT_TOGETHER, size.lines - 1 - len(block.head))
        while body:
            page = pages[-1] if pages else []
            gap = [""] if len(page) > 1 else []
            room = size.lines - len(page) - len(gap) - len(block.head)
            if not pages or room < min(len(body), together):
                pages.append([_running_head(title, number_of[len(pages)], size.cells)])
                continue
            page += [*gap, *block.head, *body[:room]]
            body = body[room:]
    return tuple(tuple(page) for page in pages)


def brf_file(pages: Sequence[Sequence[str]]) -> bytes:
    return "".join("".join(f"{brf_of(line)}\r\n" for line in page) + "\f" for page in pages).encode("ascii")


def wrapped(cells: str, width: int) -> Iterator[str]:
    """Broken at blank cells; a word longer than the line is broken where the line ends."""
    line = ""
    for word in cells.split(BLANK):
        while len(word) > width:
            word, rest = word[:width], word[width:]  # noqa: PLW2901
            yield from filter(None, (line, word))
            line, word = "", rest  # noqa: PLW2901
        if line and len(line) + 1 + len(word) > width:
            yield line
            line = word
        else:
            line = f"{line}{BLANK}{word}" if line else word
    if line:
        yield line


_KEPT_TOGETHER = 4
"""Lines of a block, which is not begun at a page's end for less."""
_FEWEST = 2
"""Beneath a head, on a page of their own."""


def _check_fits(block: Block, size: PageSize) -> None:
    longest = max(map(len, (*block.head, *block.body)))
    if longest > size.cells:
        raise CallerError(
            f"A braille line of {size.cells} cells is too short for this sheet, which needs {longest}: "
            "choose a wider page."
        )
    if len(block.head) + 1 + _FEWEST > size.lines:
        raise CallerError(f"A braille page of {size.lines} lines is too short for this sheet: choose a longer one.")


def _running_head(title: str, number: str, width: int) -> str:
    room = width - len(number) - NUMBER_APART
    shown = title if len(title) <= room else title[:room].rpartition(BLANK)[0] or title[:room]
    return f"{shown}{BLANK * (width - len(shown) - len(number))}{number}"
