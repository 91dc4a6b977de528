"""Plain lines to the person at the terminal: no boxes, no colour, nothing that moves."""

import os
import shutil
import sys
import textwrap
from contextlib import suppress

from saythesum.errors import CallerError


def show(line: str) -> None:
    """A line on standard output: what the command was asked for."""
    write(f"{_visible(line)}\n")


def in_lines(sentences: str) -> str:
    """Broken between words where a terminal would break within one; as it is where the output is no terminal."""
    if sys.stdout is None or not sys.stdout.isatty():
        return sentences
    columns = shutil.get_terminal_size().columns
    return textwrap.fill(sentences, columns, break_long_words=False, break_on_hyphens=False)


def write(text: str) -> None:
    """At once. Raises BrokenPipeError where the reader has gone away, and CallerError where there is no room.

    Where there is no standard output, nothing is written.
    """
    if sys.stdout is None:
        return
    try:
        sys.stdout.write(_in(sys.stdout.encoding, text))
        sys.stdout.flush()
    except OSError as error:
        # The buffer is emptied into nothing, or Python would complain about it at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if isinstance(error, BrokenPipeError):
            raise
        raise CallerError(f"The lines cannot be written ({error.strerror}); what was answered is kept.") from error


def tell(sentence: str) -> None:
    """A line on standard error: what is wrong or missing. Where it cannot be written, the work goes on."""
    if sys.stderr is not None:
        with suppress(OSError):
            print(_visible(sentence), file=sys.stderr, flush=True)  # noqa: T201


def _visible(text: str) -> str:
    """A file name may contain control characters that a terminal would obey."""
    return "".join(letter if letter.isprintable() or letter == "\n" else "?" for letter in text)


def _in(encoding: str, text: str) -> str:
    """Letters that the terminal's encoding lacks become question marks."""
    return text.encode(encoding, "replace").decode(encoding)
