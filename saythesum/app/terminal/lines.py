"""Lines that come in, from a person or from whatever was connected."""

from collections.abc import Iterator
from io import TextIOWrapper
from typing import TextIO

from saythesum.app.terminal.console import tell

LONGEST_LINE = 10_000
"""What is longer is no answer: its beginning says enough of it."""
_MOST_PIECES = 100
"""Of a line, each as long as that. A line without end would be waited for until the memory is full."""


def lines_in(stdin: TextIO | None) -> Iterator[str]:
    """No input at all is an input at its end, and so is a line without end, which is told.

    Bytes that are no text are an answer nobody understands.
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
    """False where the line does not end."""
    return any(not _is_cut(stdin.readline(LONGEST_LINE)) for _ in range(_MOST_PIECES))


def _is_cut(line: str) -> bool:
    return len(line) == LONGEST_LINE and not line.endswith("\n")
