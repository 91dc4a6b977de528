"""The cells of a line, the cursor, panning and routing; the display itself is tested with the real BRLTTY."""

import socket

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.keyboard.keymap import EVERYBODYS
from saythesum.scene.braille_line import BrailleLine
from saythesum.screen.accessibility.braille_cells import count_of_cells, dots_of, text_place
from saythesum.screen.accessibility.braille_display import BrailleDisplay
from saythesum.wording.braille.own_encoder import encoded


def cells(dots: bytes) -> str:
    return "".join(chr(0x2800 + byte) for byte in dots)


def test_the_cursor_is_dots_7_and_8_where_the_next_digit_goes() -> None:
    line = BrailleLine("57+8=6", cursor=6)
    assert cells(dots_of(line, 0, 40)).rstrip("\u2800") == encoded("57+8=6") + "\u28c0"
    assert len(dots_of(line, 0, 40)) == 40


@given(width=st.integers(1, 80), first=st.integers(0, 60))
def test_a_display_of_any_width_gets_as_many_cells_as_it_has(width: int, first: int) -> None:
    line = BrailleLine("57+8=", cursor=5, behind="sum 4 of 6")
    assert len(dots_of(line, first, width)) == width


def test_what_is_less_needed_stands_beside_the_text_where_it_fits_and_comes_by_panning_where_not() -> None:
    line = BrailleLine("57+8=65", cursor=7, behind="sum 4 of 6")
    needed, behind, cursor = encoded("57+8=65"), encoded("sum 4 of 6"), "\u28c0"
    assert cells(dots_of(line, 0, 40)) == f"{needed}{cursor}\u2800{behind}".ljust(40, "\u2800")
    assert cells(dots_of(line, 0, 20)) == f"{needed}{cursor}".ljust(20, "\u2800")
    assert cells(dots_of(line, 20, 20)) == behind.ljust(20, "\u2800")
    assert count_of_cells(line, 20) == 20 + len(behind)


def test_a_cell_leads_to_its_character_number_signs_included() -> None:
    line = BrailleLine("38: 43 ? ?")
    text = [line.text[text_place(line, cell) :][:1] for cell in range(len(encoded(line.text)))]
    assert text == ["3", "3", "8", ":", " ", "4", "4", "3", " ", "?", "?", " ", "?", "?"]
    assert text_place(line, 39) == len(line.text)


def test_without_a_server_nothing_happens(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.socket() as free:
        monkeypatch.setenv("BRLAPI_HOST", _host(free))
    display = BrailleDisplay(lambda: 0, EVERYBODYS)
    display.want(is_wanted=True)
    display.show(BrailleLine("57+8=", cursor=5))
    assert display.look() == []
    display.close()


def test_a_server_that_never_answers_keeps_nobody_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each call was made by the window's thread once, and a practice stood still."""
    with socket.socket() as silent:
        monkeypatch.setenv("BRLAPI_HOST", _host(silent))
        silent.listen(1)
        display = BrailleDisplay(lambda: 0, EVERYBODYS)
        display.want(is_wanted=True)
        connection, _ = silent.accept()
        display.show(BrailleLine("57+8=", cursor=5))
        assert display.look() == []
        display.want(is_wanted=False)
        display.close()
        connection.close()


def _host(listening: socket.socket) -> str:
    """As BrlAPI names a free port. Source: BrlAPI's reference: 4101 is its port 0."""
    listening.bind(("127.0.0.1", 0))
    return f"127.0.0.1:{listening.getsockname()[1] - 4101}"
