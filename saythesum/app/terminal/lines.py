"""Lines that come in, from a person or from whatever was connected."""

from collections.abc import Iterator
from io import TextIOWrapper
from typing import TextIO

from saythesum.app.terminal.console import tell

LONGEST_LINE = 10_000
"""Anything longer is not an answer; its beginning is enough to say so."""
_MOST_PIECES = 100
"""Of one line, each of that length. An endless line would otherwise be read until the memory is full."""


def lines_in(stdin: TextIO | None) -> Iterator[str]:
    """Missing input counts as ended, and so does an endless line, with a sentence on standard error.

    Bytes that are not UTF-8 become an answer that is not understood.
    """
    if stdin is None:
        return
    if isinstance(stdin, TextIOWrapper):
        stdin.reconfigure(errors="replace")
    while line := stdin.readline(LONGEST_LINE):
        if _is_cut(line) and not _rest_passed_over(stdin):
            tell("A line of the input has no end: right would be one answer a line. The practice stops here.")
            return
        yield line.removeprefix("\ufeff")  # an editor's mark at the beginning of a file


def _rest_passed_over(stdin: TextIO) -> bool:
    """False for a line that does not end."""
    return any(not _is_cut(stdin.readline(LONGEST_LINE)) for _ in range(_MOST_PIECES))


def _is_cut(line: str) -> bool:
    return len(line) == LONGEST_LINE and not line.endswith("\n")
