"""The word game as a value: what is asked, what came, what is kept of it. It knows no device and no time.

With consent, and the pupil's own yes, it keeps how they say each word once two of their sayings are alike; without, it
keeps nothing and each word is said once.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import Enum, auto
from typing import TypeAlias

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Number
from saythesum.hearing.confidence.gate import Judged, Verdict
from saythesum.hearing.embedded.own_words.own_words import MOST_TAKES, Odd, OwnWords, Take
from saythesum.ports import Hearing, Samples
from saythesum.wording.speak import said_word_game as say

MOST_TRIES = 4
"""Of one word in one game: then it is left for another day."""
LEFT_IN_A_ROW = 3
"""So many words to which nobody said anything: nobody is there."""
NEW_SOUND_AFTER = 2
"""So many words in a row whose sayings are alike, and unlike those of other days: the microphone is another one, or
the pupil has a cold. From then on only today's are compared."""
NOISY_BELOW_DB, NOISY_IN_A_ROW = 6.0, 2
"""Speech so little above the room, so often: our own choice; at 10 dB above babble a third of the numbers is taken."""


class Over(Enum):
    FINISHED = auto()
    STOPPED = auto()
    SAID_NO = auto()
    NOISY = auto()
    NOBODY = auto()


class Stage(Enum):
    MAY_I_KEEP = auto()
    WORDS = auto()
    NO_MORE = auto()
    """The pupil seems to have said no: it is asked about."""
    STOP_TODAY = auto()


class Pressed(Enum):
    YES = auto()
    NO = auto()
    AGAIN = auto()
    LEAVE = auto()
    STOP = auto()


@dataclass(frozen=True, slots=True)
class Sound:
    """How well a saying came through the microphone."""

    above_room_db: float | None
    """None where speech began at once, and nothing is known of the room."""
    is_clipped: bool


@dataclass(frozen=True, slots=True, eq=False)
class Said:
    samples: Samples
    """Kept in memory until the game is over, and nowhere else."""
    hearing: Hearing
    """Heard plainly, without own words."""
    judged: Judged
    sound: Sound


@dataclass(frozen=True, slots=True)
class Silence:
    """Nobody spoke."""


@dataclass(frozen=True, slots=True)
class Noise:
    """What sounds like speech has no end."""


Came: TypeAlias = Said | Silence | Noise | Pressed


@dataclass(frozen=True, slots=True, eq=False)
class Saying:
    number: int
    said: Said
    takes: tuple[Take, ...] = ()
    """What is kept of it, and of the one before where that was in doubt."""

    @property
    def is_understood(self) -> bool:
        return understands(self.said.judged, self.number)


def understands(judged: Judged, number: int) -> bool:
    return isinstance(judged.heard, Number) and judged.heard.sure and judged.heard.value == number


@dataclass(frozen=True, slots=True)
class Today:
    """What is kept, where that is allowed."""

    on: date
    earlier: OwnWords
    takes: OwnWords
    """Of today."""
    is_new_sound: bool = False

    @property
    def all(self) -> OwnWords:
        return joined(self.earlier, self.takes.takes)

    @property
    def compared_with(self) -> OwnWords:
        return self.takes if self.is_new_sound else self.all

    @property
    def sure(self) -> OwnWords:
        """To be kept: no word of which nobody knows yet whether its one saying was the pupil's."""
        return joined(self.earlier, self.sure_takes)

    @property
    def sure_takes(self) -> tuple[Take, ...]:
        """Of today."""
        counts = self.all.counts
        return tuple(take for take in self.takes.takes if counts[take.number] > 1)


def joined(own: OwnWords, newer: Iterable[Take]) -> OwnWords:
    """The newest of each word."""
    takes = [*own.takes, *newer]
    newest = {id(take) for number in {t.number for t in takes} for take in _of(takes, number)[-MOST_TAKES:]}
    return replace(own, takes=tuple(take for take in takes if id(take) in newest))


def _of(takes: Iterable[Take], number: int) -> list[Take]:
    return [take for take in takes if take.number == number]


@dataclass(frozen=True, slots=True)
class WordGame:
    says: tuple[str, ...]
    """Said in this order; the last one is a question until the game is over."""
    stage: Stage
    left: tuple[int, ...]
    """To be said, the one that is being asked for first."""
    wanted: int = 1
    """How many sayings of each there are to be."""
    today: Today | None = None
    """None: nothing is kept."""
    sayings: tuple[Saying, ...] = ()
    left_out: tuple[int, ...] = ()
    over: Over | None = None
    held: Odd | None = None
    tries: int = 0
    """Of this word."""
    unheard: int = 0
    """Questions in a row to which nobody said anything."""
    left_in_a_row: int = 0
    noisy_in_a_row: int = 0
    new_sounds: int = 0
    """Words in a row that sounded different from other days, and alike."""
    is_no_meant: bool = True
    """What sounds like "no" or "stop" may be one. Once the pupil has said that it was not, this word is heard as it
    is."""

    @property
    def awaiting(self) -> Awaiting:
        return Awaiting.NUMBER if self.stage is Stage.WORDS else Awaiting.CHOICE

    @property
    def to_say(self) -> tuple[int, ...]:
        """What another day goes on with."""
        return (*self.left_out, *self.left)


def begun(left: Sequence[int]) -> WordGame:
    """A check: each word once."""
    return WordGame((say.BEGIN, say.say_word(left[0])), Stage.WORDS, tuple(left))


def begun_keeping(left: Sequence[int], wanted: int, earlier: OwnWords, on: date) -> WordGame:
    """With consent; the pupil is asked first."""
    today = Today(on, earlier, replace(earlier, takes=()))
    return WordGame((say.BEGIN, say.MAY_I_KEEP), Stage.MAY_I_KEEP, tuple(left), wanted, today)


def after(game: WordGame, came: Came) -> WordGame:
    assert game.over is None
    match came:
        case Noise():
            return _over(game, Over.NOISY)
        case Pressed.STOP:
            return _over(game, Over.STOPPED)
        case Pressed.AGAIN:
            return replace(game, says=game.says[-1:])
    return _STAGES[game.stage](game, came)


def _may_i_keep(game: WordGame, came: Came) -> WordGame:
    match _answer(came):
        case True:
            return _asks(replace(game, stage=Stage.WORDS, unheard=0))
        case False:
            return _said_no(game)
    if _wants_to_stop(came) or game.unheard:
        return _over(game, Over.STOPPED)
    return replace(game, says=(say.MAY_I_KEEP_AGAIN,), unheard=1)


def _is_it_no(game: WordGame, came: Came) -> WordGame:
    """ "Shall I stop keeping your words?", or "Shall we stop for today?"."""
    match _answer(came):
        case True:
            return _said_no(game) if game.stage is Stage.NO_MORE else _over(game, Over.STOPPED)
        case False:
            return _asks(replace(game, stage=Stage.WORDS, unheard=0, is_no_meant=False), say.GO_ON)
    if _wants_to_stop(came) or game.unheard:
        return _over(game, Over.STOPPED)
    return replace(game, says=game.says[-1:], unheard=1)


def _answer(came: Came) -> bool | None:
    match came:
        case Pressed.YES:
            return True
        case Pressed.NO:
            return False
        case Said(judged=Judged(heard=Choice(yes=yes, sure=True))):
            return yes
    return None


def _wants_to_stop(came: Came) -> bool:
    return isinstance(came, Said) and _command(came.judged) is Command.STOP


def _command(judged: Judged) -> Command | None:
    heard = judged.heard
    return heard.command if isinstance(heard, Given) and judged.verdict is Verdict.TAKEN else None


def _word(game: WordGame, came: Came) -> WordGame:
    match came:
        case Pressed.LEAVE:
            return _leaves(game, say.LEFT_OUT)
        case Pressed.NO:
            return _doubts(game)
        case Silence():
            return _unheard(game)
        case Said():
            return _said(replace(game, unheard=0, left_in_a_row=0), came)
    return replace(game, says=game.says[-1:])


def _unheard(game: WordGame) -> WordGame:
    if not game.unheard:
        return replace(game, says=(say.say_louder(game.left[0]),), unheard=1)
    if game.left_in_a_row + 1 == LEFT_IN_A_ROW:
        return _over(game, Over.NOBODY)
    return _leaves(replace(game, left_in_a_row=game.left_in_a_row + 1), say.LEFT_OUT)


def _said(game: WordGame, said: Said) -> WordGame:
    heard = said.judged.heard
    match _command(said.judged):
        case Command.STOP if isinstance(heard, Given) and not heard.alone:
            return _over(game, Over.STOPPED)
        case Command.STOP if game.is_no_meant:
            return replace(game, says=(say.STOP_TODAY,), stage=Stage.STOP_TODAY)
        case Command.NOT_WHAT_I_SAID if game.is_no_meant:
            return _doubts(game)
        case Command.SAY_AGAIN:
            return replace(game, says=game.says[-1:])
        case Command.SKIP | Command.DONT_KNOW | Command.HELP:
            return _leaves(game, say.LEFT_OUT)
    above = said.sound.above_room_db
    noisy = game.noisy_in_a_row + 1 if above is not None and above < NOISY_BELOW_DB else 0
    game = replace(game, noisy_in_a_row=noisy, tries=game.tries + 1)
    return _over(game, Over.NOISY) if noisy == NOISY_IN_A_ROW else _saying(game, said)


def _doubts(game: WordGame) -> WordGame:
    if game.today is None:
        return replace(game, says=(say.STOP_TODAY,), stage=Stage.STOP_TODAY)
    return replace(game, says=(say.NO_MORE,), stage=Stage.NO_MORE)


def _saying(game: WordGame, said: Said) -> WordGame:
    number, today = game.left[0], game.today
    if today is None or said.hearing.frames is None:
        return _next(replace(game, sayings=(*game.sayings, Saying(number, said))))
    came = _compared(today, number, said, game.held)
    if isinstance(came, Odd):
        game = replace(game, sayings=(*game.sayings, Saying(number, said)))
        if game.tries >= MOST_TRIES or (game.held and game.held.take.length):
            return _leaves(replace(game, held=None), say.LEFT_OUT)
        return replace(game, held=came, says=(say.say_once_more(number),))
    new = _new_takes(today, came)
    is_said_again = game.held is not None and any(take is game.held.take for take in new)
    game = replace(game, held=None, sayings=(*game.sayings, Saying(number, said, new)))
    game = _with_new(game, number, new, is_said_again=is_said_again)
    assert game.today
    if game.today.all.counts[number] < game.wanted and game.tries < MOST_TRIES:
        return replace(game, says=(say.say_again(number),))
    return _next(game)


def _compared(today: Today, number: int, said: Said, held: Odd | None) -> OwnWords | Odd:
    """The first saying of a word has none of its own to be compared with, and the words of one speaker are as near to
    each other as seventeen to seventy: there the engine is asked whether it surely heard another number."""
    own = today.compared_with
    assert said.hearing.frames is not None
    came = own.with_take(number, said.hearing.frames, on=today.on, again=held)
    if held or own.counts[number]:
        return came
    heard = said.judged.heard
    if isinstance(heard, Number) and heard.sure and heard.value != number:
        return came if isinstance(came, Odd) else Odd(came.takes[-1], like=heard.value)
    return joined(own, [came.take]) if isinstance(came, Odd) and came.take.length else came


def _new_takes(today: Today, came: OwnWords) -> tuple[Take, ...]:
    before = set(map(id, today.compared_with.takes))
    return tuple(take for take in came.takes if id(take) not in before)


def _with_new(game: WordGame, number: int, new: tuple[Take, ...], *, is_said_again: bool) -> WordGame:
    """Two that are alike outvote a single one of today: that may have been somebody else. What other days have stays:
    the pupil may sound different today."""
    today, new_sounds = game.today, game.new_sounds
    assert today
    own = _of(today.takes.takes, number)
    kept = today.takes
    if is_said_again and own and not _of(today.earlier.takes, number):
        kept = replace(kept, takes=tuple(take for take in kept.takes if take.number != number))
    elif _of(today.earlier.takes, number) and not own:
        new_sounds = new_sounds + 1 if is_said_again else 0
    is_new = today.is_new_sound or new_sounds >= NEW_SOUND_AFTER
    today = replace(today, takes=joined(kept, new), is_new_sound=is_new)
    return replace(game, today=today, new_sounds=new_sounds)


def _next(game: WordGame) -> WordGame:
    game = replace(game, left=game.left[1:], tries=0, unheard=0, held=None, is_no_meant=True)
    return _asks(game) if game.left else _over(game, Over.FINISHED)


def _leaves(game: WordGame, sentence: str) -> WordGame:
    """For another day."""
    game = replace(game, left_out=(*game.left_out, game.left[0]))
    came = _next(game)
    return replace(came, says=(sentence, *came.says))


def _asks(game: WordGame, *before: str) -> WordGame:
    return replace(game, says=(*before, say.say_word(game.left[0])))


def _said_no(game: WordGame) -> WordGame:
    """What was said before the no is not kept either."""
    assert game.today
    return _over(replace(game, today=replace(game.today, takes=replace(game.today.takes, takes=()))), Over.SAID_NO)


_LAST_WORDS = {
    Over.FINISHED: say.FINISHED,
    Over.STOPPED: say.STOPPED,
    Over.SAID_NO: say.NOT_KEPT,
    Over.NOISY: say.TOO_NOISY,
    Over.NOBODY: say.NOBODY,
}


def no_longer_allowed(game: WordGame) -> WordGame:
    """Consent was withdrawn meanwhile, or what was kept erased: nothing of today is to be kept either."""
    return _over(replace(game, today=None), Over.STOPPED)


def _over(game: WordGame, over: Over) -> WordGame:
    return replace(game, over=over, says=(_LAST_WORDS[over],))


_STAGES = {
    Stage.MAY_I_KEEP: _may_i_keep,
    Stage.WORDS: _word,
    Stage.NO_MORE: _is_it_no,
    Stage.STOP_TODAY: _is_it_no,
}
