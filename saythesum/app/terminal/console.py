"""Plain lines to the person at the terminal: no boxes, no colour, nothing that moves."""

import os
import shutil
import sys
import textwrap
from contextlib import suppress

from saythesum.errors import CallerError


def show(line: str) -> None:
    """What the command is for."""
    write(f"{_visible(line)}\n")


def in_lines(sentences: str) -> str:
    """Broken between words where a terminal would break within one; as it is where the output is no terminal."""
    if sys.stdout is None or not sys.stdout.isatty():
        return sentences
    columns = shutil.get_terminal_size().columns
    return textwrap.fill(sentences, columns, break_long_words=False, break_on_hyphens=False)


def write(text: str) -> None:
    """At once. Raises BrokenPipeError where the reader has gone away, and CallerError where there is no room.

    Without any output at all there is nobody to write for.
    """
    if sys.stdout is None:
        return
    try:
        sys.stdout.write(_in(sys.stdout.encoding, text))
        sys.stdout.flush()
    except OSError as error:
        # What is still in the buffer goes nowhere: Python would complain of it at its exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if isinstance(error, BrokenPipeError):
            raise
        raise CallerError(f"The lines cannot be written ({error.strerror}); what was answered is kept.") from error


def tell(sentence: str) -> None:
    """What is wrong or missing, beside the work; where that cannot be written, the work goes on."""
    if sys.stderr is not None:
        with suppress(OSError):
            print(_visible(sentence), file=sys.stderr, flush=True)  # noqa: T201


def _visible(text: str) -> str:
    """The name of a file may hold what a terminal would obey."""
    return "".join(letter if letter.isprintable() or letter == "\n" else "?" for letter in text)


def _in(encoding: str, text: str) -> str:
    """Letters that an old terminal does not have are question marks there."""
    return text.encode(encoding, "replace").decode(encoding)
