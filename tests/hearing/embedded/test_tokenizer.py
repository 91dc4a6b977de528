"""Text to pieces and back, against the embedded model's own file and against small files made here."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.hearing.embedded.moonshine import embedded_model
from saythesum.hearing.embedded.tokenizer import Pieces

PIECES = embedded_model().pieces


def packed(*pieces: bytes) -> bytes:
    return b"".join(_length(len(piece)) + piece for piece in pieces)


def _length(length: int) -> bytes:
    if length < 128:
        return bytes([length])
    return bytes([128 + length % 128, length // 128])


def small(*pieces: str) -> Pieces:
    """The three special pieces, the 256 bytes, then `pieces`."""
    special = (b"<unk>", b"<s>", b"</s>")
    raw = tuple(bytes([byte]) for byte in range(256))
    return Pieces(packed(*special, *raw, *(piece.encode() for piece in pieces)))


def test_the_file_has_as_many_pieces_as_the_decoder_has_scores() -> None:
    assert len(PIECES) == 32_768


def test_long_pieces_have_a_second_length_byte() -> None:
    long = "a" * 300
    assert small(long, "b").text([259, 260]) == long + "b"


def test_neighbours_with_the_lowest_id_join_first() -> None:
    pieces = small("\u2581", "a", "b", "c", "bc", "ab", "\u2581a")
    # "bc" (263) goes before "ab" (264), so "ab" is never made; then "\u2581a" (265).
    assert pieces.ids("abc") == (265, 263)


def test_a_character_that_is_there_twice_takes_the_later_id() -> None:
    assert small("\u2581", "y").ids("y") == (259, 260)


@pytest.mark.parametrize("text", ["Seventy.", "Eighty.", "fifty-two", "a hundred and four", "70-1.", "Don't know"])
def test_single_letters_and_marks_are_pieces_not_bytes(text: str) -> None:
    """With the byte of "y" or of the full stop these words could never be followed in the tree."""
    assert all(number > 258 for number in PIECES.ids(text))


def test_what_has_no_piece_is_written_in_bytes() -> None:
    pieces = small("\u2581", "a")
    assert pieces.ids("aé") == (259, 260, 3 + 0xC3, 3 + 0xA9)
    assert pieces.text(pieces.ids("aé")) == "aé"


@given(st.lists(st.text(st.characters(min_codepoint=33, max_codepoint=126), min_size=1), min_size=1))
def test_text_comes_back(words: list[str]) -> None:
    text = " ".join(words)
    assert PIECES.text(PIECES.ids(text)) == text
