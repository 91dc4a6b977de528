"""A sheet's code: four letters and a check letter, by which answers from paper are typed in again.

The letters do not look alike, only a and k rhyme, none is the mirror image of another in braille, and none needs a
number sign there. The check letter catches every single wrong letter, and every two neighbours that changed places.
Source: H. M. Damm, Total anti-symmetrische Quasigruppen (doctoral thesis, Marburg 2004); the table of order 10 is from
memory, and the tests prove both properties for every code.
"""

from hashlib import sha256

LETTERS = "aghkmoruxy"
LENGTH = 4
COUNT = 10_000
_DAMM = (
    "0317598642", "7092154863", "4206871359", "1750983426", "6123045978",
    "3674209581", "5869720134", "8945362017", "9438617205", "2581436790",
)  # fmt: skip


def code_number(text: str) -> int:
    """Where the search for a free code begins: the same for the same text, on every computer."""
    number = int(sha256(text.encode()).hexdigest(), 16)
    return number % COUNT


def code_of(number: int) -> str:
    digits = f"{number % COUNT:0{LENGTH}d}"
    return "".join(LETTERS[int(digit)] for digit in (*digits, str(_check(digits))))


def is_code(text: str) -> bool:
    if len(text) != LENGTH + 1 or not set(text) <= set(LETTERS):
        return False
    return _check("".join(str(LETTERS.index(letter)) for letter in text)) == 0


def _check(digits: str) -> int:
    """0 for digits that end with their own check digit."""
    so_far = 0
    for digit in digits:
        so_far = int(_DAMM[so_far][int(digit)])
    return so_far
