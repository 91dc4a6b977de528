"""Sentences in a terminal: broken between words, and only there."""

import os
import struct
import subprocess
import sys

import pytest

SENTENCES = "Forty and five is forty-five. How many of the five get you to forty?"
PROGRAM = f"from saythesum.app.terminal.console import in_lines, show; show(in_lines({SENTENCES!r}))"


@pytest.mark.skipif(sys.platform == "win32", reason="a terminal of its own is made here as POSIX has them")
@pytest.mark.parametrize("columns", [20, 31, 80])
def test_a_terminal_breaks_between_words(columns: int) -> None:
    import fcntl
    import termios

    ours, theirs = os.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    without_columns = {name: value for name, value in os.environ.items() if name != "COLUMNS"}
    subprocess.run([sys.executable, "-c", PROGRAM], stdout=theirs, check=True, env=without_columns)
    os.close(theirs)
    lines = os.read(ours, 10_000).decode().splitlines()
    os.close(ours)
    assert " ".join(lines) == SENTENCES
    assert all(len(line) <= columns for line in lines)


def test_a_pipe_gets_the_sentences_as_they_are() -> None:
    written = subprocess.run([sys.executable, "-c", PROGRAM], capture_output=True, check=True, text=True)
    assert written.stdout == f"{SENTENCES}\n"
