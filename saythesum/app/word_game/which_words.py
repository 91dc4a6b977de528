"""Which number words a pupil is asked to say: those heard least surely first, never one right beside its rival."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from saythesum.core.records.rows import Answer, By, RowId, Void, VoidReason
from saythesum.hearing.confidence.confusable import are_confusable, words_of
from saythesum.hearing.embedded.own_words.own_words import MOST_TAKES, WORDS
from saythesum.wording.numbers import words

OFTEN_MIXED_UP = (30, 14, 5, 60, 9, 40, 13, 80, 50, 3, 15, 70)
"""Tens, the teens that sound like them, and others that the engine mixes up: where nothing is known of a pupil."""
MOST = len(OFTEN_MIXED_UP)
SAYINGS = 2
"""Of each word, in one game."""
_KNOWN_BEFORE = 4
"""What is expected of a word counts as much as so many answers."""
_EXPECTED, _EXPECTED_OF_OFTEN_MIXED_UP = 0.9, 0.8
"""Certainties: about what an answer by voice has, and somewhat less."""


@dataclass(frozen=True, slots=True)
class Sureness:
    """How certainly each number word of a pupil's kept answers was heard; one taken back as not said counts as 0."""

    of_word: Mapping[int, float]

    def __getitem__(self, number: int) -> float:
        return self.of_word.get(number, _expected(number))


def sureness(rows: Iterable[object]) -> Sureness:
    """`rows`: of the pupil's practices."""
    certain: dict[RowId, tuple[int, float]] = {}
    for row in rows:
        match row:
            case Answer(by=By.VOICE, certainty=float(certainty)):
                certain[row.id] = (row.given, certainty)
            case Void(why=VoidReason.NOT_SAID) if row.of in certain:
                certain[row.of] = (certain[row.of][0], 0.0)
    heard: dict[str, list[float]] = {}
    for given, certainty in certain.values():
        for word in words_of(given):
            heard.setdefault(word, []).append(certainty)
    return Sureness({number: _mean(number, heard[words(number)]) for number in WORDS if words(number) in heard})


def _mean(number: int, heard: Sequence[float]) -> float:
    return (_expected(number) * _KNOWN_BEFORE + sum(heard)) / (_KNOWN_BEFORE + len(heard))


def _expected(number: int) -> float:
    return _EXPECTED_OF_OFTEN_MIXED_UP if number in OFTEN_MIXED_UP else _EXPECTED


def least_sure(sure: Sureness, counts: Mapping[int, int]) -> tuple[int, ...]:
    """Twelve, of those of which there is room for more sayings. `counts`: how often each was said before."""
    wanting = [number for number in WORDS if counts.get(number, 0) < MOST_TAKES]
    return tuple(sorted(wanting, key=lambda number: (sure[number], _place(number)))[:MOST])


def _place(number: int) -> tuple[int, int]:
    return (OFTEN_MIXED_UP.index(number) if number in OFTEN_MIXED_UP else MOST, number)


def wanted_of_each(twelve: Iterable[int], counts: Mapping[int, int]) -> int:
    """How often each of the twelve is to have been said when the game is over. What an earlier day left is made up
    first: then only those that are behind are asked for."""
    return min(counts.get(number, 0) for number in twelve) // SAYINGS * SAYINGS + SAYINGS


def in_good_order(numbers: Iterable[int]) -> tuple[int, ...]:
    """As they come, but none right after one that it is mixed up with, as far as that can be: what was said a moment
    ago would help or hinder."""
    waiting, ordered = list(numbers), list[int]()
    while waiting:
        apart = (number for number in waiting if not ordered or not are_confusable(ordered[-1], number))
        ordered.append(next(apart, waiting[0]))
        waiting.remove(ordered[-1])
    return tuple(ordered)
