"""What the made-up voices say: numbers, commands, and the many things that are neither, drawn from a seed."""

from dataclasses import dataclass
from random import Random
from string import ascii_uppercase

from saythesum.wording.numbers import HOMOPHONES, TENS, UNDER_TWENTY
from saythesum.wording.understand.spellings import ORDINAL_WORDS
from tests.tools.listening.sounds import NEAR_WORDS as NEAR_WORDS_ASKED_ABOUT
from tests.tools.second_opinion.vocabulary import (
    HUNDREDS_TOLD_APART,
    LONGER,
    OTHER,
    OTHER_WORD,
    WORDS,
    choices,
    phrases,
    words_of,
)


@dataclass(frozen=True, slots=True)
class Saying:
    text: str
    """As a synthesiser reads it."""
    words: tuple[str, ...]
    """Of `vocabulary.WORDS`, one after the other."""
    meaning: str
    """Of `vocabulary.MEANINGS`."""


def listed(line: str) -> tuple[str, ...]:
    return tuple(line.split())


DAYS_AND_MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July", "August", "September", "October"),
    *("November", "December", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
)
LETTERS = tuple(ascii_uppercase)
NAMES = listed(
    "Anna Ben Carla Dev Emma Farah Hannah Imran Jack Kate Liam Maya Noah Olivia Priya Ravi Sofia Tom Uma Victor Wendy "
    "Yusuf Zoe Peter Ahmed Wei Juan Fatima Ivan"
)
NEAR_WORDS = listed(
    "sticks when pen dirty plenty fire fine tea tie heaven oven leaven shelf self sick sex hive life live night mine "
    "wine line eat hate ant late door floor more store fork foot do who you blue true me see sea key sheep street "
    "through throw thread thirst heavy button mitten kitten fifties twenties nineties teens sixties son sun run gun "
    "fun ton van want water oh well hello zoo hero zebra tent hen then men elephant shelves turtle thirsty party "
    "sporty shorty naughty weighty pity city nifty shifty lady baby tiny shiny fixed shoes wonder forward force forth "
    "fort foreign afford before fours threes twos ones eights nines fives sixes sevens tens wonderful woman wand once "
    "ace ape age aid height hey hay he hi I eye my tight type time ties tries freeze freedom trees tooth toot tool "
    "food new knew now know nose note nod not nah nay yet yesterday yellow guess bless less mess says yawn tin tan tap "
    "attend intend tension sever severed save seen sane sin sit sips nick nice knife fight file find fly flight forget "
    "faux fall fault forest fear thief thieve theory these thus thumb thing think thin sing sink fin wing wink twin "
    "twist twig twice twelfth delve valve elf leaving believing evening event even uneven level eleventh lemon "
    "hurting hurdle hearty hardy gift lift sift gently entry sentry aunty empty mighty tidy nightie lightly wait wade "
    "great gate date plate going one's window under hundred's a-one order"
)
"""Words that sound like number words. Those of `tests.tools.listening.sounds` are kept out, to be asked about later."""
SENTENCES = (
    *("I have {} rolls", "she is {} years old", "it's not {}", "give me {} of them", "page {} of the book"),
    *("deck {} please", "is it {}", "hey there", "good morning", "what time is it", "turn the light on"),
    *("I want to go home", "can you hear me", "what is this", "oh no", "oh dear", "all right then", "thank you"),
    *("you're welcome", "let me think", "I am thinking", "let's see", "um", "uh", "er", "hmm", "mm", "huh", "ah"),
    *("ha ha", "shh", "wow", "ouch", "oops", "okay", "right", "sorry", "excuse me", "the ferry is late"),
    *("my turn now", "that was easy", "this is hard", "what do you mean", "who is there", "come here"),
    *("look at this", "play some music", "call my mother", "stop it now", "the answer is", "plus", "minus", "times"),
    *("equals", "divided by", "point", "half", "a half", "quarter", "double", "dozen", "pair", "couple", "none"),
    *("nothing", "some", "many", "few", "all", "number", "digit", "count", "sum", "add", "take away", "maths"),
)
RESPELLINGS = {
    **{"three": ("tree", "free"), "seven": ("sewen", "sevven"), "five": ("fiwe", "fife"), "twelve": ("twelwe",)},
    **{"eleven": ("elewen",), "thirteen": ("tirteen", "firteen"), "thirty": ("tirty", "firty"), "ten": ("tenn",)},
    **{"zero": ("jero", "zeero", "seero"), "one": ("vun", "wonn"), "twenty": ("tventy", "twenny")},
    **{"eight": ("ate", "ayt"), "two": ("too", "tu"), "four": ("fower", "faur"), "six": ("siks",)},
    **{"nine": ("nain", "nyne"), "seventy": ("sewenty",), "forty": ("fordy", "fourty"), "eighty": ("ayty",)},
    **{"ninety": ("ninedy",), "fifty": ("fivty",), "sixty": ("siksty",)},
}
"""Other mouths' number words, for synthesisers that read letter by letter."""
_RESPELT = 0.12

_STARTS = listed("b c d f g h j k l m n p r s t v w z sh ch th br tr st pl gr")
_VOWELS = listed("a e i o u ee oo ai ow er ar")
_ENDS = (*listed("b d g k l m n p r s t v x nd st ng"), *[""] * 6)

_TAKEN_FOR_NUMBERS = {word for others in HOMOPHONES.values() for word in others} | {"fore", "tew", "wan", "sicks"}
_LEFT_OUT = {*WORDS, *_TAKEN_FOR_NUMBERS, *NEAR_WORDS_ASKED_ABOUT}


def plain_words(lexicon: list[str]) -> list[str]:
    """Those that can stand for "something else"."""
    return [word for word in lexicon if word.isascii() and word.isalpha() and word.islower() and _is_other(word)]


def _is_other(word: str) -> bool:
    return 2 < len(word) < 11 and word not in _LEFT_OUT


def drawn(dice: Random, lexicon: list[str], *, respelt: bool = True) -> Saying:
    """A number in eleven of twenty, yes or no or a command in two, something else in the rest."""
    value, at = None, dice.random()
    if at < 0.27:
        value = dice.randrange(20)
    elif at < 0.35:
        value = dice.choice(list(TENS))
    elif at < 0.47:
        value = dice.choice([number for number in range(21, 100) if number % 10])
    elif at < 0.53:
        value = dice.randrange(100, 200)
    elif at < 0.55:
        value = dice.randrange(200, 1100)
    elif at < 0.58:
        way, meaning = dice.choice(list(choices().items()))
        return Saying(way, (meaning,), meaning)
    elif at < 0.63:
        command, ways = dice.choice(list(phrases().items()))
        way = dice.choice(ways)
        return Saying(way, words_of(way), command.value)
    if value is None:
        return something_else(dice, lexicon)
    said = dice.choice(number_words(value))
    read = [_respelt(word, dice) for word in said] if respelt and dice.random() < _RESPELT else said
    return Saying(" ".join(read) + dice.choice((".", "", "")), tuple(said), number_meaning(value))


def number_meaning(value: int) -> str:
    return str(value) if value < HUNDREDS_TOLD_APART else LONGER


def number_words(value: int) -> list[list[str]]:
    """The ways of saying it, each word by word."""
    if value < 20:
        return [[UNDER_TWENTY[value]]]
    if value < 100:
        ones = value % 10
        return [[TENS[value - ones], *([UNDER_TWENTY[ones]] if ones else [])]]
    unit, name = (1000, "thousand") if value >= 1000 else (100, "hundred")
    count, rest = divmod(value, unit)
    starts = [[UNDER_TWENTY[count], name]] + ([["a", name], [name]] if count == 1 else [])
    if not rest:
        return starts
    return [[*start, *joint, *number_words(rest)[0]] for start in starts for joint in (["and"], [])]


def _respelt(word: str, dice: Random) -> str:
    return dice.choice(RESPELLINGS[word]) if word in RESPELLINGS and dice.random() < 0.6 else word


def something_else(dice: Random, lexicon: list[str]) -> Saying:
    at = dice.random()
    if at < 0.25:
        return _other(dice.choice(lexicon))
    if at < 0.43:
        return _other(dice.choice(NEAR_WORDS))
    if at < 0.56:
        return _other(dice.choice(LETTERS))
    if at < 0.65:
        return _ordinal(dice)
    if at < 0.70:
        return _other(dice.choice(DAYS_AND_MONTHS))
    if at < 0.76:
        return _other(_nonsense(dice))
    if at < 0.79:
        return _other(dice.choice(NAMES))
    if at < 0.88:
        return _sentence(dice)
    return _other(" ".join(dice.choice(lexicon) for _ in range(dice.randint(2, 4))))


def _other(text: str) -> Saying:
    return Saying(text, (OTHER_WORD,) * len(text.split()), OTHER)


def _ordinal(dice: Random) -> Saying:
    ordinal = dice.choice(ORDINAL_WORDS)
    if ordinal in ORDINAL_WORDS[:9] and dice.random() < 0.5:
        tens = dice.choice(list(TENS.values()))
        return Saying(f"{tens} {ordinal}", (tens, OTHER_WORD), OTHER)
    return _other(ordinal)


def _sentence(dice: Random) -> Saying:
    """One with a number in it has that number's words among its words, and is still no answer."""
    sentence = dice.choice(SENTENCES)
    said = number_words(dice.randrange(100))[0]
    words = [word for part in sentence.split() for word in (said if part == "{}" else [OTHER_WORD])]
    return Saying(sentence.format(" ".join(said)), tuple(words), OTHER)


def _nonsense(dice: Random) -> str:
    syllables = dice.choice((1, 1, 2, 2, 3))
    return "".join(dice.choice(_STARTS) + dice.choice(_VOWELS) + dice.choice(_ENDS) for _ in range(syllables))
