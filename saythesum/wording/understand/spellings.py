"""Every way an engine may write each number, 0 to 1099, and the rivals that sound like numbers and are none."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from saythesum.core.meanings import LARGEST_NUMBER, Meaning, Number
from saythesum.wording.numbers import HOMOPHONES, OTHER_SPELLINGS, TENS, UNDER_TWENTY
from saythesum.wording.understand.grammar import Maybe, OneOf, Rule, Sequence, Word, either, written

_HYPHEN_OR_SPACE = ("-", " ")

NUMBER_WORDS = (*UNDER_TWENTY, *TENS.values(), "hundred", "thousand", "a", "and")
_ORDINALS_UNDER_TWENTY = (
    *("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"),
    *("eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth"),
    *("eighteenth", "nineteenth"),
)
ORDINAL_WORDS = (*_ORDINALS_UNDER_TWENTY, *(name.removesuffix("y") + "ieth" for name in TENS.values()))


@dataclass(frozen=True, slots=True)
class Spelling:
    """As it stands inside a sentence: small letters but for "I", no full stop. An engine adds its own."""

    text: str
    meaning: Meaning | None
    """None for a rival: it takes part so that it can win, and is no answer."""


@cache
def numbers() -> tuple[Spelling, ...]:
    found = []
    for value in range(LARGEST_NUMBER + 1):
        meaning = Number(value)
        found += [Spelling(text, meaning) for text in written(number_rule(value))]
    return tuple(found)


@cache
def rivals() -> tuple[Spelling, ...]:
    """First to ninety-ninth in words and figures, and the decades as "30s".

    Without them "third" has nowhere to go but "three" or "thirty", and most days and months hold an ordinal.
    """
    in_words = [text for value in range(1, 100) for text in written(_ordinal_rule(value))]
    in_figures = [f"{value}{_ending(value)}" for value in range(1, 100)]
    decades = [f"{tens}s" for tens in TENS]
    return tuple(Spelling(text, None) for text in in_words + in_figures + decades)


def number_rule(value: int) -> Rule:
    return OneOf((*_in_figures(value), _in_words(value)))


def _in_words(value: int) -> Rule:
    if value < 100:
        return _below_hundred(value, homophones=True)
    unit, name = (1000, "thousand") if value >= 1000 else (100, "hundred")
    count, rest = divmod(value, unit)
    how_many = either("a", "one") if count == 1 else Word(UNDER_TWENTY[count])
    if not rest:
        return Sequence((how_many, Word(name)))
    return Sequence((how_many, Word(name), Maybe(Word("and")), _below_hundred(rest, homophones=False)))


def _below_hundred(value: int, *, homophones: bool) -> Rule:
    if value < 20:
        return _word(UNDER_TWENTY[value], value, homophones=homophones)
    ones = value % 10
    tens = _word(TENS[value - ones], value - ones, homophones=homophones)
    if not ones:
        return tens
    return Sequence((tens, _word(UNDER_TWENTY[ones], ones, homophones=homophones)), _HYPHEN_OR_SPACE)


def _word(name: str, value: int, *, homophones: bool) -> Rule:
    others = OTHER_SPELLINGS.get(value, ()) + HOMOPHONES.get(value, ()) if homophones else ()
    return either(name, *others) if others else Word(name)


def _in_figures(value: int) -> Iterator[Word]:
    yield Word(str(value))
    if value >= 1000:
        yield Word(f"{value:,}")
    if 20 < value < 100 and value % 10:
        yield Word(f"{value - value % 10}-{value % 10}")  # "70-1" is how the neural model writes seventy-one


def _ordinal_rule(value: int) -> Rule:
    if value < 20:
        return Word(_ORDINALS_UNDER_TWENTY[value - 1])
    tens, ones = value - value % 10, value % 10
    if not ones:
        return Word(TENS[tens].removesuffix("y") + "ieth")
    return Sequence((Word(TENS[tens]), Word(_ORDINALS_UNDER_TWENTY[ones - 1])), _HYPHEN_OR_SPACE)


def _ending(value: int) -> str:
    return "th" if value in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(value % 10, "th")
