"""The pieces of words that the embedded model reads and writes, and text turned into them and back."""

from collections.abc import Iterable
from functools import lru_cache

SPACE = "\u2581"
"""How the pieces write the space before a word."""

START_ID = 1
END_ID = 2
_FIRST_WRITTEN_ID = 3


class Pieces:
    """The model's 32,768 pieces, numbered in the order of its file."""

    def __init__(self, packed: bytes) -> None:
        """`packed` holds one byte string after another, each led by its length.

        A length of 128 and more takes a second byte: length = first - 128 + 128 * second.
        """
        self._pieces = tuple(_unpacked(packed))
        # Single characters are there twice: once as raw bytes (ids 3 to 258), once among the pieces.
        # The model writes the later one, so the later one wins here.
        self._id_of = {piece: number for number, piece in enumerate(self._pieces)}
        self._word_ids = lru_cache(maxsize=None)(self._joined)

    def __len__(self) -> int:
        return len(self._pieces)

    def ids(self, text: str) -> tuple[int, ...]:
        """The pieces the model itself would write for `text`. No piece reaches over a space."""
        return tuple(number for word in text.split() for number in self._word_ids(SPACE + word))

    def text(self, ids: Iterable[int]) -> str:
        written = b"".join(self._pieces[number] for number in ids if number >= _FIRST_WRITTEN_ID)
        return written.decode("utf-8", errors="replace").replace(SPACE, " ").strip()

    def _joined(self, word: str) -> tuple[int, ...]:
        """Byte pair encoding: of all neighbours, the two whose union has the lowest id join first."""
        parts = [character.encode() for character in word]
        while (joint := self._best_joint(parts)) is not None:
            parts[joint : joint + 2] = [parts[joint] + parts[joint + 1]]
        return tuple(number for part in parts for number in self._ids_of_part(part))

    def _best_joint(self, parts: list[bytes]) -> int | None:
        unions = (
            (self._id_of[union], place)
            for place in range(len(parts) - 1)
            if (union := parts[place] + parts[place + 1]) in self._id_of
        )
        return min(unions, default=(0, None))[1]

    def _ids_of_part(self, part: bytes) -> tuple[int, ...]:
        """A character without a piece of its own is written byte by byte."""
        if part in self._id_of:
            return (self._id_of[part],)
        return tuple(_FIRST_WRITTEN_ID + byte for byte in part)


def _unpacked(packed: bytes) -> Iterable[bytes]:
    at = 0
    while at < len(packed):
        length = packed[at]
        at += 1
        if length >= 128:
            length += 128 * packed[at] - 128
            at += 1
        yield packed[at : at + length]
        at += length
