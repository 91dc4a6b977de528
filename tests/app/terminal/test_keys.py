"""Bytes of a terminal as presses, and a real terminal (a pty) put back as it was."""

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import cache
from itertools import pairwise
from typing import TextIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.app.terminal.keys import keys_from
from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.terminal_bytes import decoded, held_keys_marked
from tests.app.at_a_terminal import at_a_terminal


def keys(data: bytes, keymap: Keymap = EVERYBODYS) -> str:
    """By name or digit, as one line."""
    presses, rest = decoded(data, 0, keymap, is_over=True)
    assert rest == b""
    return " ".join(str(press.key if press.digit is None else press.digit) for press in presses)


# ---- bytes --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"47\n", "4 7 enter"),  # pasted
        (b"47\r\n44\r\n", "4 7 enter 4 4 enter"),
        (b"\x1bOt\x1bOw\x1bOM", "4 7 enter"),  # the pad, where the terminal tells it
        (b"4\x7f\x08-\x1bOm", "4 backspace backspace backspace backspace"),
        (b" *+.\x1bOj\x1bOk\x1bOn", "space say-again help where-am-i say-again help where-am-i"),
        (b"\x1b", "escape"),
        (b"\x1b\x1b", "escape escape"),
        (b"\x1b\x1b[A", "escape up"),
        (b"\x03\x04", "stop close"),
        (b"\x1b[13;5u\x1b[27;5;13~", "adult adult"),  # Ctrl and Enter, where the terminal tells it
    ],
)
def test_keys(data: bytes, expected: str) -> None:
    assert keys(data) == expected


@pytest.mark.parametrize(
    "data",
    [
        b"abcXYZ$%&/",
        "é½٤".encode(),
        b"\x1b[2~\x1b[3~",  # Insert, Delete
        b"\x1b[1;5A\x1b[6;3~",  # with Ctrl, with Alt
        b"\x1b4\x1bx\x1b\x7f",  # Alt and a key
        b"\x1b[200~\x1b[201~",  # round a paste
        b"\x1b[4;7R\x1b[?64;4c",  # answers of a terminal
        b"\x1b]11;rgb:4747/4747/4747\x07\x1bP1$r4 q\x1b\\",
        b"\x1b[<0;47;44M",  # a mouse
        b"\x1b[47",  # broken off
        b"\x1bO",
        b"\x1b]4;7",
        b"\x00\x01\x1a\x1c",
    ],
)
def test_what_is_no_key_is_swallowed_whole(data: bytes) -> None:
    assert keys(data) == ""
    assert keys(data + b"\x1b[B") == "down"


STREAM = b"4\x1b[5~7\x7f\x1bOP\x1b[[A\x1b[200~4\x1b]4;7\x1b\\\x1b[Z\x1b\x1b[20~\xc3\xa9\x1bOt\r"


@given(st.lists(st.integers(0, len(STREAM)), max_size=12))
def test_split_anywhere_it_is_the_same(cuts: list[int]) -> None:
    whole, rest = decoded(STREAM, 0)
    presses: list[Pressed] = []
    begun = b""
    places = [0, *sorted(cuts), len(STREAM)]
    for start, end in pairwise(places):
        more, begun = decoded(begun + STREAM[start:end], 0)
        presses += more
    assert (presses, begun) == (whole, rest)
    assert rest == b""


@given(st.lists(st.sampled_from([b"\x1b", b"[", b"O", b"4", b";", b"~", b"A", b"\r", b"]", b"\x07", b"\\", b"\xff"])))
def test_whatever_comes(pieces: list[bytes]) -> None:
    """Nothing raises, everything is used up, and no digit is made up."""
    data = b"".join(pieces)
    presses, rest = decoded(data, 0)
    assert data.endswith(rest)
    assert rest == b"" or rest.startswith(b"\x1b")
    assert sum(press.key is Key.DIGIT for press in presses) <= data.count(b"4")
    assert decoded(data, 0, is_over=True)[1] == b""


CAPABILITIES = {
    "kbs": Key.BACKSPACE,
    "kcbt": Key.SHIFT_TAB,
    "kcud1": Key.DOWN,
    "kcuf1": Key.RIGHT,
    "kcub1": Key.LEFT,
    "kcuu1": Key.UP,
    "kend": Key.END,
    "kent": Key.ENTER,
    "kf1": Key.KEYS_ALOUD,
    "kf9": Key.ADULT,
    "khome": Key.HOME,
    "knp": Key.HELP,
    "kpp": Key.WHERE_AM_I,
}


@pytest.mark.parametrize("terminal", ["linux", "xterm", "xterm-256color", "rxvt", "screen", "tmux", "vt220"])
def test_keys_as_terminfo_has_them(terminal: str) -> None:
    """Source: the terminfo database of this machine's ncurses."""
    known = {name: sent for name, sent in terminfo(terminal).items() if name in CAPABILITIES}
    assert len(known) >= 8
    for name, sent in known.items():
        assert keys(sent) == CAPABILITIES[name], f"{terminal} {name} {sent!r}"


@pytest.mark.parametrize("terminal", ["linux", "rxvt", "screen", "tmux", "vt220", "xterm"])
def test_keys_of_the_pupils_own_as_terminfo_has_them(terminal: str) -> None:
    """Source: the same. F13 and beyond are keys of their own in some terminals, F1 with Shift in others."""
    sent = terminfo(terminal)
    names = {"Delete": "kdch1", **{f"F{number}": f"kf{number}" for number in range(1, 21)}}
    known = {name: sent[capability] for name, capability in names.items() if b";" not in sent.get(capability, b";")}
    assert len(known) >= 10
    for name, data in known.items():
        assert keys(data, Keymap({name: Key.SKIP})) == "skip", f"{terminal} {name} {data!r}"


def test_more_keys_of_the_pad_and_letters_of_braille() -> None:
    """Source of the pad's codes: xterm's control sequences, VT220-style function keys."""
    keymap = Keymap({"pad slash": Key.SKIP, "pad equals": Key.STOP, "pad 0": Key.HELP}, has_braille_letters=True)
    assert keys(b"/\x1bOo=\x1bOX\x1bOp0", keymap) == "skip skip stop stop help 0"
    assert keys(b"#dD\r", keymap) == "4 4"
    assert keys(b"dd/=") == ""


@cache
def terminfo(terminal: str) -> dict[str, bytes]:
    if shutil.which("infocmp") is None:
        pytest.fail("infocmp (Debian package ncurses-bin) is missing: the keys cannot be compared.")
    listed = subprocess.run(["infocmp", "-1", terminal], capture_output=True, text=True, check=True).stdout
    return {name: _sent(value) for name, value in re.findall(r"^\t(\w+)=(.*),$", listed, re.MULTILINE)}


def _sent(value: str) -> bytes:
    value = value.replace(r"\E", "\x1b")
    return re.sub(r"\^(.)", lambda found: chr(ord(found[1]) ^ 64), value).encode("latin-1")


# ---- keys that are held --------------------------------------------------------------------------------


def test_a_held_key_is_told_by_its_pace() -> None:
    help_held = [Pressed(Key.HELP, at_ms) for at_ms in (0, 500, 540, 580)]
    assert [press.is_repeat for press in held_keys_marked(help_held)] == [False, False, True, True]
    pages = [Pressed(Key.HELP, 0), Pressed(Key.WHERE_AM_I, 40), Pressed(Key.HELP, 80)]
    assert not any(press.is_repeat for press in held_keys_marked(pages))


def test_what_is_typed_quickly_is_typed() -> None:
    typed = [Pressed(Key.DIGIT, 0, digit=4), Pressed(Key.DIGIT, 0, digit=4), *[Pressed(Key.BACKSPACE, 30)] * 2]
    assert list(held_keys_marked(typed)) == typed


# ---- pipes -----------------------------------------------------------------------------------------------


@contextmanager
def pipe() -> Iterator[tuple[TextIO, int]]:
    reading, writing = os.pipe()
    with os.fdopen(reading) as stdin:
        yield stdin, writing


def test_a_pipe_is_read_to_its_end() -> None:
    with pipe() as (stdin, writing):
        os.write(writing, b"47\x7f4\n\x1b")
        os.close(writing)
        with keys_from(stdin, lambda: 900) as presses:
            found = list(presses)
    four, seven = (Pressed(Key.DIGIT, 900, digit=digit) for digit in (4, 7))
    backspace, enter, escape = (Pressed(key, 900) for key in (Key.BACKSPACE, Key.ENTER, Key.ESCAPE))
    assert found == [four, seven, backspace, four, enter, escape]


def test_a_lone_escape_is_told_from_a_sequence_by_what_follows_at_once() -> None:
    with pipe() as (stdin, writing), keys_from(stdin, lambda: 0) as presses:
        os.write(writing, b"\x1b")
        assert next(presses).key is Key.ESCAPE, "nothing follows, although the pipe stays open"
        os.write(writing, b"[A\x1b[A")
        assert next(presses).key is Key.UP
        os.close(writing)
        assert list(presses) == []


@pytest.mark.parametrize("is_closed", [False, True])
def test_without_any_input(is_closed: bool) -> None:
    stdin = None
    if is_closed:
        with pipe() as (stdin, writing):
            os.close(writing)
    with keys_from(stdin, lambda: 0) as presses:
        assert list(presses) == []


def test_beside_the_main_thread_keys_are_read_too() -> None:
    def read() -> list[Pressed]:
        with pipe() as (stdin, writing):
            os.write(writing, b"4")
            os.close(writing)
            with keys_from(stdin, lambda: 0) as presses:
                return list(presses)

    with ThreadPoolExecutor(1) as other:
        assert other.submit(read).result() == [Pressed(Key.DIGIT, 0, digit=4)]


def test_keys_end_for_another_thread_that_waits_for_them() -> None:
    """The input stays open; who waits for its next key is let go, and is not left to read from what is closed."""
    with ThreadPoolExecutor(1) as other, pipe() as (stdin, writing):
        with keys_from(stdin, lambda: 0) as presses:
            os.write(writing, b"4")
            assert other.submit(next, presses).result() == Pressed(Key.DIGIT, 0, digit=4)
            rest = other.submit(list, presses)
        assert rest.result() == []
        os.close(writing)


def test_signals_are_left_as_they_were() -> None:
    watched = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
    before = [signal.getsignal(number) for number in watched]
    with pipe() as (stdin, writing), keys_from(stdin, lambda: 0) as presses:
        assert [signal.getsignal(number) for number in watched] != before
        os.kill(os.getpid(), signal.SIGINT)
        assert next(presses).key is Key.STOP
        os.close(writing)
    assert [signal.getsignal(number) for number in watched] == before


# ---- a real terminal --------------------------------------------------------------------------------------

READER = """
import sys
from saythesum.app.terminal.keys import keys_from
with keys_from(sys.stdin, lambda: 0) as presses:
    print("ready", flush=True)
    for press in presses:
        print(press.key if press.digit is None else press.digit, flush=True)
        if press.key == "stop":
            break
        if press.key == "help":
            raise ArithmeticError("on purpose")
"""


def test_keys_come_one_by_one_and_unechoed() -> None:
    with at_a_terminal(READER) as terminal:
        terminal.wait_for("ready")
        assert terminal.now != terminal.before
        terminal.type(b"4")
        terminal.wait_for("4\r\n")
        terminal.type(b"\x1b[5~\x13\x1a\x1b")
        terminal.wait_for("where-am-i\r\nescape\r\n")
        terminal.type(b"\r")
        terminal.wait_for("enter\r\n")
        assert terminal.shown.replace("\r\n", " ") == "ready 4 where-am-i escape enter "


@pytest.mark.parametrize(
    ("typed", "code", "shown"),
    [(b"\x03", 0, "stop"), (b"\x1b[6~", 1, "on purpose")],
    ids=["end", "exception"],
)
def test_the_terminal_is_put_back(typed: bytes, code: int, shown: str) -> None:
    with at_a_terminal(READER) as terminal:
        terminal.wait_for("ready")
        terminal.type(typed)
        terminal.wait_for(shown)
        assert terminal.program.wait() == code
        assert terminal.now == terminal.before


@pytest.mark.parametrize("kill", [signal.SIGTERM, signal.SIGHUP])
def test_the_terminal_is_put_back_when_the_reader_is_killed(kill: signal.Signals) -> None:
    with at_a_terminal(READER) as terminal:
        terminal.wait_for("ready")
        terminal.program.send_signal(kill)
        assert terminal.program.wait() == 128 + kill
        assert terminal.now == terminal.before
        assert "Traceback" not in terminal.shown


def test_an_interrupt_from_elsewhere_is_a_stop() -> None:
    with at_a_terminal(READER) as terminal:
        terminal.wait_for("ready")
        terminal.program.send_signal(signal.SIGINT)
        terminal.wait_for("stop\r\n")
        assert terminal.program.wait() == 0
        assert terminal.now == terminal.before


def test_a_terminal_that_goes_away_is_an_end() -> None:
    ours, its = os.openpty()
    program = subprocess.Popen(
        [sys.executable, "-c", READER],
        stdin=its,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    os.close(its)
    assert program.stdout is not None
    assert program.stdout.readline() == b"ready\n"
    os.close(ours)
    out, errors = program.communicate()
    assert (program.returncode, out, errors) == (0, b"", b"")
