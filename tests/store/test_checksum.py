import random

from saythesum.store.checksum import checksum_of

ROW: tuple[str | int, ...] = (
    "f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5",
    7,
    "seats on the ferry",
    "ask",
    "",
    0,
    '{"row": 0}',
)


def test_it_is_the_published_crc_32() -> None:
    """Source of the check value: "Catalogue of parametrised CRC algorithms" (Cook), CRC-32/ISO-HDLC."""
    assert checksum_of("123456789") == 0xCBF43926


def test_every_change_of_one_letter_shows() -> None:
    whole = checksum_of(*ROW)
    for place, column in enumerate(ROW):
        for at, letter in enumerate(str(column)):
            for bit in range(7):
                text = str(column)[:at] + chr(ord(letter) ^ 1 << bit) + str(column)[at + 1 :]
                assert checksum_of(*ROW[:place], text, *ROW[place + 1 :]) != whole


def test_columns_that_are_exchanged_show() -> None:
    dice = random.Random(7)
    for _ in range(20):
        shuffled = dice.sample(ROW, len(ROW))
        assert (checksum_of(*shuffled) == checksum_of(*ROW)) == (tuple(shuffled) == ROW)


def test_text_that_is_no_unicode_has_one() -> None:
    assert checksum_of("oars \ud83d") != checksum_of("oars ?")
