"""What children say beside a number: doubt, how they came to it, that they will count. It changes no number.

A number is only found where it stands by itself once this is left out.
"""

from saythesum.wording.numbers import TENS, UNDER_TWENTY
from saythesum.wording.understand.patterns import compiled
from saythesum.wording.understand.tokens import PAUSE, Line

_SETS = {
    "tens": " ".join((*TENS.values(), *map(str, range(100)))),
    "ones": " ".join(UNDER_TWENTY),
}
_BESIDE = compiled(
    (
        "i dont/dinnae know/ken but?",
        "im? not really? sure but?",
        "i do not know but?",
        "dunno but?",
        "dont tell me",
        "let me think/see/count",
        "im thinking",
        "or something/summat like? that?",
        "am i right",
        "is that right/it",
        "is it right",
        "final answer",
        "ill/i count/counted on/with? my? fingers/hands?",
        "ill/im count/counting",
        "on my fingers",
        "start/starting/started at/from/with/on",
        "where was i",
        "<tens> something",
        "it/that will",
        "might be",
        "could be",
        "thatll/itll be",
        "got/has/have to be",
        "im going with/for",
        "im gonna say",
        "im saying/thinking/guessing/getting",
        "id/ill/i/lets say/go? with?",
        "i have/ive? worked it out",
        "i bet/know/got/counted/make/have",
        "i know this one",
        "i know it",
        "ive got it",
        "what/how about",
        "i have? got it",
        "easy",
        "hello/hi/hey",
        "maam/mam/teacher",
        "like/ooh/yay/aw/em",
        "and? then <ones> more",
        "<ones> more makes/is/gets/make me? to? <tens> <ones>?",
        "it/that cant/isnt/wasnt be? <tens> <ones>?",
        "<ones>/<tens> tens/ten and? <ones>/<tens> ones/units/one?",
    ),
    _SETS,
)


def without_asides(line: Line) -> Line:
    """Each aside leaves a pause behind."""
    spaced = "".join(f"{word} " for word in line)
    return tuple(_BESIDE.sub(f"{PAUSE} ", spaced).split())
