"""A line of text as the words it is made of: small letters, no apostrophes, and PAUSE where somebody breathes."""

import re

from saythesum.wording.understand.grammar import bare

Line = tuple[str, ...]
PAUSE = ","
LONGEST_LINE = 400
"""In characters. Whatever is longer is no answer."""

_PIECE = re.compile(
    r"""
      (?P<joined>[2-9]0-[1-9](?![0-9.,/:-]*[0-9]))            # "70-1", as the neural model writes seventy-one
    | (?P<grouped>[0-9],[0-9]{3}(?![0-9]))                    # "1,004"
    | (?P<odd>[0-9]+(?:[./:\-–−][0-9]+)+)                     # a decimal, a fraction, a time, "5-2"
    | (?P<word>[a-z0-9]+(?:'[a-z0-9]+)*)
    | (?P<minus>(?<![a-z0-9])[-–−](?=[0-9]))
    | (?P<hyphen>(?<=[a-z0-9])-(?=[a-z0-9]))
    | (?P<sign>[+=])
    | (?P<pause>[-–−—,.;:!?…"'“”()]+)
    | (?P<space>\s+)
    | (?P<other>.)
    """,
    re.VERBOSE | re.DOTALL,
)
_APOSTROPHES = str.maketrans("’‘ʼ`", "''''")
_SIGNS = {"+": "add", "=": "is"}
_HESITATION = re.compile(r"u+h*m+|u+h+|e+r+m*|eh+m*|a+h+|h*m+|so|okay|ok")
_OPENING = "well"
"""A hesitation only where something begins: "I'm not well" is none."""


def split(text: str) -> Line:
    """Anything that is no letter, ASCII digit or everyday mark stays as a word of its own that nobody knows."""
    found: list[str] = []
    for piece in _PIECE.finditer(text.lower().translate(_APOSTROPHES)):
        match piece.lastgroup:
            case "space" | "hyphen":
                continue
            case "joined":
                tens, ones = piece.group().split("-")
                found.append(str(int(tens) + int(ones)))
            case "grouped":
                found.append(piece.group().replace(",", ""))
            case "minus":
                found.append("minus")
            case "sign":
                found.append(_SIGNS[piece.group()])
            case "pause":
                found.append(PAUSE)
            case _:
                found.append(bare(piece.group()))
    return tuple(PAUSE if _is_hesitation(found, at) else word for at, word in enumerate(found))


def _is_hesitation(words: list[str], at: int) -> bool:
    if words[at] == _OPENING:
        return at == 0 or words[at - 1] == PAUSE or _is_hesitation(words, at - 1)
    return _HESITATION.fullmatch(words[at]) is not None


def without_pauses(line: Line) -> Line:
    return tuple(word for word in line if word != PAUSE)
