"""Unified English Braille, uncontracted, for what stands on our sheets: where liblouis is not installed.

Source: ICEB, The Rules of Unified English Braille (2nd edition), sections 3, 4, 6 and 7, and Guidelines for Technical
Material, sections 2, 3.1 and 3.6; the tests hold it equal to liblouis.
"""

from collections.abc import Iterator
from unicodedata import combining, normalize

from saythesum.wording.braille.cells import BLANK, cell

_LETTERS = {
    "a": "1", "b": "12", "c": "14", "d": "145", "e": "15", "f": "124", "g": "1245", "h": "125", "i": "24", "j": "245",
    "k": "13", "l": "123", "m": "134", "n": "1345", "o": "135", "p": "1234", "q": "12345", "r": "1235", "s": "234",
    "t": "2345", "u": "136", "v": "1236", "w": "2456", "x": "1346", "y": "13456", "z": "1356",
}  # fmt: skip
_DIGITS = {digit: _LETTERS[letter] for digit, letter in zip("1234567890", "abcdefghij", strict=True)}
_SIGNS = {
    "+": "5 235", "−": "5 36", "=": "5 2356", "×": "5 236", ",": "2", ".": "256", ":": "25", ";": "23", "!": "235",
    "?": "236", "'": "3", "’": "3", "-": "36", "(": "5 126", ")": "5 345", "/": "456 34", "_": "46 36",
}  # fmt: skip
NUMBER_SIGN, LETTER_SIGN, CAPITAL_SIGN = "3456", "56", "6"
_STAYS_IN_NUMBER = ",."


def encoded(text: str) -> str:
    """Cells. Letters lose their accents, and what is neither letter, digit nor sign of ours is left out."""
    plain = "".join(one for one in normalize("NFD", text) if not combining(one))
    return BLANK.join("".join(cell(dots) for dots in _of_word(word)) for word in plain.split(" "))


def _of_word(word: str) -> Iterator[str]:
    is_all_capital = word.isalpha() and word.isupper() and len(word) > 1
    if is_all_capital:
        yield from (CAPITAL_SIGN, CAPITAL_SIGN)
    in_number = False
    for place, character in enumerate(word):
        if character in _DIGITS:
            yield from (_DIGITS[character],) if in_number else (NUMBER_SIGN, _DIGITS[character])
            in_number = True
        elif character.lower() in _LETTERS:
            if in_number and character in "abcdefghij":
                yield LETTER_SIGN
            if character.isupper() and not is_all_capital:
                yield CAPITAL_SIGN
            yield _LETTERS[character.lower()]
            in_number = False
        elif character in _SIGNS:
            if word == "?":  # alone it would be read as an opening quotation mark
                yield LETTER_SIGN
            yield from _SIGNS[character].split()
            in_number = in_number and character in _STAYS_IN_NUMBER and word[place + 1 : place + 2] in _DIGITS
