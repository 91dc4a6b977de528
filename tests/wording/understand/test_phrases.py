import subprocess
from collections import Counter
from collections.abc import Iterator

import pytest

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Number, Unclear, WhyUnclear
from saythesum.wording.numbers import words
from saythesum.wording.understand.grammar import Maybe, OneOf, Sequence, Word, either, ends, fits, maybe, say, written
from saythesum.wording.understand.phrases import PHRASES, Phrase, Where, open_for, spellings, word_list
from saythesum.wording.understand.spellings import number_rule
from saythesum.wording.understand.understood import SHORTEST_SPOKEN_WISH, understood
from tests.wording.sounds import SOUNDS, distance, sounds

FAR_ENOUGH = 4
"""Sounds. One clipped or swapped sound is common in a hearing, three together are not: our own choice."""
OPEN_AT_NUMBERS = [phrase for phrase in PHRASES if phrase.where in (Where.ANYWHERE, Where.WRITTEN)]


def _texts(awaiting: Awaiting) -> dict[str, object]:
    return {spelling.text: spelling.meaning for spelling in spellings(awaiting)}


def _meaning(text: str) -> object:
    return _texts(Awaiting.NUMBER)[text]


def test_every_way_of_writing_a_number() -> None:
    assert {text for text, meaning in _texts(Awaiting.NUMBER).items() if meaning == Number(47)} == {
        *("47", "40-7", "forty-seven", "forty seven", "fourty-seven", "fourty seven")
    }
    assert {text for text, meaning in _texts(Awaiting.NUMBER).items() if meaning == Number(104)} == {
        *("104", "one hundred and four", "one hundred four", "a hundred and four", "a hundred four")
    }
    assert {text for text, meaning in _texts(Awaiting.NUMBER).items() if meaning == Number(1009)} == {
        *("1009", "1,009", "one thousand and nine", "one thousand nine", "a thousand and nine", "a thousand nine")
    }


@pytest.mark.parametrize(
    ("text", "value"),
    [
        *[("to", 2), ("too", 2), ("for", 4), ("ate", 8), ("free", 3), ("tree", 3), ("firty", 30), ("fourty", 40)],
        *[("won", 1), ("nought", 0), ("70-1", 71), ("60-6", 66), ("forty to", 42), ("thirty-free", 33)],
    ],
)
def test_homophones_are_spellings_of_a_number(text: str, value: int) -> None:
    assert _meaning(text) == Number(value)


@pytest.mark.parametrize("text", ["first", "twenty-first", "ninety ninth", "fortieth", "1st", "22nd", "13th", "30s"])
def test_ordinals_are_rivals(text: str) -> None:
    assert text in _texts(Awaiting.NUMBER)
    assert _meaning(text) is None


@pytest.mark.parametrize("text", ["oh", "you", "then", "stop", "help", "wait", "yes", "that's what I said"])
def test_small_words_are_not_in_the_closed_set_of_numbers(text: str) -> None:
    assert text not in _texts(Awaiting.NUMBER)


@pytest.mark.parametrize("awaiting", Awaiting)
def test_no_text_has_two_meanings(awaiting: Awaiting) -> None:
    assert [text for text, times in Counter(s.text for s in spellings(awaiting)).items() if times > 1] == []


@pytest.mark.parametrize("awaiting", Awaiting)
def test_spellings_stand_as_inside_a_sentence(awaiting: Awaiting) -> None:
    for spelling in spellings(awaiting):
        assert spelling.text == spelling.text.strip(" .")
        without_i = [word for word in spelling.text.split() if word != "I"]
        assert without_i == [word.lower() for word in without_i]


def test_closed_sets_hold_what_is_awaited() -> None:
    meanings = {awaiting: set(_texts(awaiting).values()) for awaiting in Awaiting}
    every_number = {Number(value) for value in range(1100)}
    safe = {
        *(Command.SAY_AGAIN, Command.WAIT, Command.SKIP, Command.GO_BACK, Command.HELP, Command.DONT_KNOW),
        *(Command.NOT_WHAT_I_SAID, Command.WHERE_AM_I, Command.SLOWER, Command.STOP, Command.SAID_FIRST),
        *(Command.PATTERNS, Command.NO_MORE_PATTERNS),
    }
    short = {Command.GO_ON, Command.READ_ROW, Command.READ_COLUMN, Command.HOW_MANY_MORE, Command.HUSH}
    given = {Given(command) for command in safe}
    assert meanings[Awaiting.NUMBER] == meanings[Awaiting.STEP] == every_number | given | {None}
    assert meanings[Awaiting.CHOICE] == given | {Choice(True), Choice(False)}
    assert meanings[Awaiting.COMMAND] == given | {Given(command) for command in short}


@pytest.mark.parametrize("awaiting", Awaiting)
def test_the_closed_set_is_understood_alike(awaiting: Awaiting) -> None:
    for spelling in spellings(awaiting):
        expected = spelling.meaning or Unclear(WhyUnclear.OTHER)
        assert understood(f"{spelling.text[0].upper()}{spelling.text[1:]}.", awaiting) == expected, spelling.text


@pytest.mark.parametrize("awaiting", Awaiting)
def test_every_phrase_that_is_open_is_understood(awaiting: Awaiting) -> None:
    for typed in (False, True):
        for phrase in open_for(awaiting, typed=typed):
            for text in written(phrase.rule):
                assert understood(text, awaiting, typed=typed) == phrase.meaning, text


def test_every_command_can_be_typed_whatever_is_awaited() -> None:
    for awaiting in Awaiting:
        opened = {phrase.meaning for phrase in open_for(awaiting, typed=True)}
        assert {Given(command) for command in Command} <= opened


def test_phrases_that_are_not_open_are_not_understood() -> None:
    opened = {text for phrase in open_for(Awaiting.NUMBER, typed=False) for text in written(phrase.rule)}
    never_spoken = {text for phrase in PHRASES if phrase.where is Where.TYPED for text in written(phrase.rule)} - opened
    first_said = {text for text in never_spoken if understood(text, Awaiting.NUMBER) == Given(Command.SAID_FIRST)}
    assert first_said  # found by what it says inside a line with a number, so by itself too
    short = {text for text in never_spoken if sum(map(str.isalpha, text)) < SHORTEST_SPOKEN_WISH}
    assert len(short) > 20  # the longer ones are sentences
    for text in short - first_said:
        assert understood(text, Awaiting.NUMBER) == Unclear(WhyUnclear.OTHER), text


def test_the_word_list_can_say_everything_that_has_words() -> None:
    for awaiting in Awaiting:
        entries = word_list(awaiting)
        assert len(entries) == len(set(entries))
        for spelling in spellings(awaiting):
            if isinstance(spelling.meaning, Given | Choice):
                assert spelling.text in entries
    assert {word for value in range(1100) for word in words(value).replace("-", " ").split()} <= set(
        word_list(Awaiting.NUMBER)
    )
    assert {"first", "thirtieth"} <= set(word_list(Awaiting.STEP))


def test_rules_write_and_find_the_same_lines() -> None:
    rule = say("say", either("that", "it"), "again", maybe("please"))
    assert rule == Sequence((Word("say"), OneOf((Word("that"), Word("it"))), Word("again"), Maybe(Word("please"))))
    lines = set(written(rule))
    assert lines == {"say that again", "say it again", "say that again please", "say it again please"}
    assert all(fits(rule, tuple(line.split())) for line in lines)
    assert not fits(rule, ("say", "that"))
    assert sorted(ends(rule, ("oh", "say", "it", "again", "please", "now"), 1)) == [4, 5]


# Four sounds apart


def _spoken(phrases: list[Phrase]) -> Iterator[tuple[str, Given | Choice]]:
    for phrase in phrases:
        for text in written(phrase.rule):
            yield text, phrase.meaning


def _spoken_numbers() -> dict[tuple[str, ...], str]:
    texts = [text for value in range(1100) for text in written(number_rule(value))]
    return {sounds(text): text for text in texts if set(text.replace("-", " ").split()) <= set(SOUNDS)}


def _too_near(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    return abs(len(one) - len(other)) < FAR_ENOUGH and distance(one, other) < FAR_ENOUGH


def test_commands_open_at_numbers_are_four_sounds_from_every_number() -> None:
    numbers = _spoken_numbers()
    assert len(numbers) > 1100
    for text, _ in _spoken(OPEN_AT_NUMBERS):
        assert [number for heard, number in numbers.items() if _too_near(sounds(text), heard)] == [], text


def test_commands_open_at_numbers_are_four_sounds_from_each_other() -> None:
    spoken = list(_spoken(OPEN_AT_NUMBERS))
    for text, meaning in spoken:
        others = [other for other, means in spoken if means != meaning and _too_near(sounds(text), sounds(other))]
        assert others == [], text


@pytest.mark.parametrize("text", ["that's what I said", "that is what I said"])
def test_what_is_too_near_stays_out_of_the_closed_set(text: str) -> None:
    """One syllable from "that's not what I said", its opposite: only with "first" is it far enough."""
    assert _too_near(sounds(text), sounds(text.replace("what", "not what")))
    assert all(text not in _texts(awaiting) for awaiting in Awaiting)


def espeak(texts: list[str]) -> list[tuple[str, ...]]:
    """Source: espeak-ng, British English. One string of sounds a line; a full stop each keeps the lines apart."""
    told = subprocess.run(
        ["espeak-ng", "-v", "en-gb", "-q", "--ipa", "--sep=_"],
        input="".join(f"{text}.\n" for text in texts),
        capture_output=True,
        text=True,
        check=True,
    )
    lines = [line.translate(str.maketrans(" ", "_", "ˈˌ")) for line in told.stdout.strip().splitlines()]
    assert len(lines) == len(texts)
    return [tuple(filter(None, line.strip("_").split("_"))) for line in lines]


_IPA = {
    **{"ɔː": "AO", "ɪ": "IH", "i": "IY", "iː": "IY", "ɛ": "EH", "ə": "AX", "ɐ": "AX", "əʊ": "OW", "eɪ": "EY"},
    **{"aɪ": "AY", "aʊ": "AW", "ɒ": "OH", "ʌ": "AH", "ʊ": "UH", "uː": "UW", "ɜː": "ER", "eə": "EA", "iə": "IA"},
    **{"a": "AE", "ɑː": "AA", "θ": "TH", "ð": "DH", "ʃ": "SH", "tʃ": "CH", "j": "Y", "ɹ": "R", "ɡ": "G", "h": "HH"},
    **{"n̩": "AX N", "aɪə": "AY AX"},
}


def test_our_sounds_are_those_of_espeak() -> None:
    """At most one sound of a word apart (it says "a" and "and" in full, and "one" with the vowel of "on")."""
    theirs = dict(zip(SOUNDS, espeak(list(SOUNDS)), strict=True))
    apart = {
        word: distance(ours, tuple(" ".join(_IPA.get(sound, sound.upper()) for sound in theirs[word]).split()))
        for word, ours in SOUNDS.items()
    }
    assert max(apart.values()) == 1
    assert sum(apart.values()) <= 10, {word for word, sounds_apart in apart.items() if sounds_apart}


def test_espeak_keeps_commands_four_sounds_from_every_number() -> None:
    """The same rule on espeak-ng's own sounds, for what the closed set holds."""
    commands = [spelling.text for spelling in spellings(Awaiting.NUMBER) if isinstance(spelling.meaning, Given)]
    told = espeak([*commands, *map(words, range(1100))])
    for text, command in zip(commands, told, strict=False):
        assert [heard for heard in told[len(commands) :] if _too_near(command, heard)] == [], text


def test_number_kinds_share_one_closed_set() -> None:
    assert {frozenset(_texts(awaiting)) for awaiting in NUMBER_KINDS} == {frozenset(_texts(Awaiting.NUMBER))}
