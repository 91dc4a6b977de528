"""What a word game showed, in a teacher's words."""

from collections.abc import Iterator, Sequence
from enum import Enum, auto

from saythesum.wording.for_adults.counted import counted
from saythesum.wording.numbers import listed, words

ALL_UNDERSTOOD = "All words that were said were heard surely: speaking will do."
TOO_LITTLE = "That is too little to practise by voice: use keys today, or try again nearer to the microphone."
NOTHING_SAID = "Nothing was said, so nothing can be told."
DIFFERENT_SOUND = (
    "It sounded different from other days, and alike all through: another microphone, or a cold? If it was another "
    "child, erase the own words."
)
ONE_MOMENT = "One moment, please."
ANOTHER_ENGINE = "Own words need the listening engine that comes with it; this is a check, and nothing is kept."
_MANY = 3
"""So many words are worth the trouble of own words."""


class Microphone(Enum):
    FINE = auto()
    FAR = auto()
    CLIPS = auto()


MICROPHONE_WORDS = {
    Microphone.FINE: "The microphone is clear enough.",
    Microphone.FAR: "The microphone hears nearly as much of the room as of the pupil: move it two fingers from the "
    "corner of the mouth, use a headset, or find a quieter place.",
    Microphone.CLIPS: "The microphone is too loud: turn its level down in the computer's settings, or move it away "
    "from the mouth.",
}
"""Two fingers: common practice for a headset's microphone."""


def words_said(
    sure: Sequence[int],
    helped: Sequence[int],
    mixed: Sequence[tuple[int, int]],
    unclear: Sequence[int],
) -> Iterator[str]:
    """`helped`: not surely heard, but with the pupil's own words. `mixed`: with what each was taken for."""
    count = len(sure) + len(helped) + len(mixed) + len(unclear)
    if not count:
        yield NOTHING_SAID
    elif len(sure) == count:
        yield ALL_UNDERSTOOD
    else:
        yield f"Heard surely: {listed(sure) or 'none'} ({len(sure)} of {count})."
        if helped:
            yield f"With the pupil's own words also: {listed(helped)}."
        if pairs := sorted({(min(pair), max(pair)) for pair in mixed}):
            yield f"Better by keys, as it mixes them up: {'; '.join(' and '.join(map(words, pair)) for pair in pairs)}."
        if unclear:
            yield f"Better by keys, as it could not make them out: {listed(unclear)}."
        if 2 * (len(sure) + len(helped)) < count:
            yield TOO_LITTLE


def own_words_advised(missed: int, count: int) -> str | None:
    """Where none are used, and microphone and room are good. `missed`: of `count` words."""
    if not count:
        return None
    if missed < _MANY:
        return "Own words are not needed."
    return (
        f"Own words may help, as {missed} of {count} words were not heard surely. They are voice data of a child and "
        "need the school's consent: the pupil's page of the desk says more."
    )


def own_words_kept(sayings: int, all_words: int) -> str:
    """`sayings`: of today; `all_words`: how many words have sayings now."""
    if not sayings:
        return "Nothing new was kept of the pupil's own words."
    return f"Kept: {counted(sayings, 'saying')} of today; {counted(all_words, 'word')} can be compared now."


def still_to_say(numbers: Sequence[int]) -> str:
    return f"Still to be said on another day: {listed(numbers)}."


def said_no(code: str) -> str:
    return f"{code} said no: nothing of today is kept, and own words are off until you have asked again."
