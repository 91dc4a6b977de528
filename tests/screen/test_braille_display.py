"""The cells of a line, the cursor, panning and routing; the display itself is tested with the real BRLTTY."""

from hypothesis import given
from hypothesis import strategies as st

from saythesum.keyboard.keymap import EVERYBODYS
from saythesum.scene.braille_line import BrailleLine
from saythesum.screen.accessibility.braille_display import BrailleDisplay, dots_of, text_place
from saythesum.wording.braille.own_encoder import encoded


def cells(dots: bytes) -> str:
    return "".join(chr(0x2800 + byte) for byte in dots)


def test_the_cursor_is_dots_7_and_8_where_the_next_digit_goes() -> None:
    line = BrailleLine("57+8=6", cursor=6)
    assert cells(dots_of(line, 0, 40)).rstrip("\u2800") == encoded("57+8=6") + "\u28c0"
    assert len(dots_of(line, 0, 40)) == 40


@given(width=st.integers(1, 80), first=st.integers(0, 60))
def test_a_display_of_any_width_gets_as_many_cells_as_it_has(width: int, first: int) -> None:
    line = BrailleLine("57+8=  sum 4 of 6", cursor=5)
    assert len(dots_of(line, first, width)) == width


def test_a_cell_leads_to_its_character_number_signs_included() -> None:
    line = BrailleLine("38: 43 ? ?")
    text = [line.text[text_place(line, cell) :][:1] for cell in range(len(encoded(line.text)))]
    assert text == ["3", "3", "8", ":", " ", "4", "4", "3", " ", "?", "?", " ", "?", "?"]
    assert text_place(line, 39) == len(line.text)


def test_without_a_server_nothing_happens() -> None:
    display = BrailleDisplay(lambda: 0, EVERYBODYS)
    display.want(is_wanted=True)
    display.show(BrailleLine("57+8=", cursor=5))
    assert display.look() == ([], [])
    display.want(is_wanted=False)
