"""Braille cells as Unicode has them, and as the files that embossers and displays take (BRF) write them."""

BLANK = "\u2800"

# Braille ASCII in the order of the dots' numbers (dot 1 is 1, dot 2 is 2, dot 3 is 4 and so on).
# Source: North American Braille ASCII, as Unicode's U+2800 block orders the cells; the tests compare liblouis.
_ASCII = " A1B'K2L@CIF/MSP\"E3H9O6R^DJG>NTQ,*5<-U8V.%[$+X!&;:4\\0Z7(_?W]#Y)="


def brf_of(cells: str) -> str:
    """Of cells U+2800 to U+283F."""
    return "".join(_ASCII[ord(cell) - 0x2800] for cell in cells)


def cells_of(brf: str) -> str:
    return "".join(chr(0x2800 + _ASCII.index(letter)) for letter in brf.upper())


def cell(dots: str) -> str:
    """ "3456" is the number sign."""
    return chr(0x2800 + sum(1 << (int(dot) - 1) for dot in dots))
