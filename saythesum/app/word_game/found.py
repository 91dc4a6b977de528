"""What the word game shows: which words are heard surely, which are better typed, and what would help."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from statistics import median

from saythesum.app.word_game.game import Saying, Today, WordGame, understands
from saythesum.app.word_game.playing import heard_by
from saythesum.core.meanings import Awaiting, Number
from saythesum.hearing.confidence.gate import judged
from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords, Take
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, VocalTract
from saythesum.wording.for_adults.said_word_game import Microphone

FAR_BELOW_DB = 15.0
"""Speech so little above the room comes from too far away: our own choice, above the 10 dB at which the figures of
listening begin to fall."""
_CLIPPED_SHARE = 0.25
"""Of the sayings."""


@dataclass(frozen=True, slots=True)
class Found:
    sure: tuple[int, ...]
    """Understood at each saying, as the pupil is listened to without own words."""
    with_own_words: tuple[int, ...]
    """Of the others those that are understood at each saying with the pupil's own words, judged by the sayings that are
    not that one."""
    mixed: tuple[tuple[int, int], ...]
    """Of the rest those that were taken for another, each with that one."""
    unclear: tuple[int, ...]
    microphone: Microphone

    @property
    def by_keys(self) -> tuple[int, ...]:
        return (*(word for word, _ in self.mixed), *self.unclear)


def found_in(game: WordGame) -> Found:
    """Words that nobody said are in none of them."""
    sayings: dict[int, list[Saying]] = {}
    for one in game.sayings:
        sayings.setdefault(one.number, []).append(one)
    sure = [number for number, of_it in sayings.items() if all(one.is_understood for one in of_it)]
    helped = [number for number, of_it in sayings.items() if number not in sure and _are_helped(game.today, of_it)]
    rest = [number for number in sayings if number not in (*sure, *helped)]
    others = {number: _taken_for(sayings[number]) for number in rest}
    return Found(
        sure=tuple(sure),
        with_own_words=tuple(helped),
        mixed=tuple((number, other) for number, other in others.items() if other is not None),
        unclear=tuple(number for number, other in others.items() if other is None),
        microphone=_microphone(game.sayings),
    )


def _taken_for(sayings: Iterable[Saying]) -> int | None:
    """What it was heard as, or could not be told from."""
    for one in sayings:
        match one.said.judged.heard:
            case Number(value=value) if value != one.number:
                return value
            case Number(sure=False, alternatives=(other, *_)):
                return other
    return None


def _are_helped(today: Today | None, sayings: Iterable[Saying]) -> bool:
    if today is None:
        return False
    kept = [one for one in sayings if one.takes and one.number in today.sure.counts]
    return bool(kept) and all(_is_helped(today.sure, one) for one in kept)


def _is_helped(own: OwnWords, saying: Saying) -> bool:
    """With what is kept of all other sayings."""
    without = set(map(id, saying.takes))
    others = replace(own, takes=tuple(take for take in own.takes if id(take) not in without))
    return understands(judged(Comparison(others).of(saying.said.hearing), Awaiting.NUMBER), saying.number)


def _microphone(sayings: Sequence[Saying]) -> Microphone:
    sounds = [one.said.sound for one in sayings]
    above = [sound.above_room_db for sound in sounds if sound.above_room_db is not None]
    if sounds and sum(sound.is_clipped for sound in sounds) >= _CLIPPED_SHARE * len(sounds):
        return Microphone.CLIPS
    return Microphone.FAR if above and median(above) < FAR_BELOW_DB else Microphone.FINE


def learnt_from(sayings: Iterable[Saying], engine: NeuralRecogniser, before: VocalTract) -> VocalTract:
    """From the first saying of each word. Chosen by how likely the recordings become with it; which words were asked
    for plays no part."""
    evidence = Evidence()
    firsts = {one.number: one.said.samples for one in reversed(list(sayings))}
    for samples in firsts.values():
        evidence = evidence.with_answer(engine.log_probabilities(samples, Awaiting.NUMBER, FACTORS))
    return before.after(evidence)


def heard_anew(game: WordGame, engine: NeuralRecogniser, factor: float) -> WordGame:
    """All sayings lowered by a factor that was learnt from them: what was kept at another one cannot be compared. A
    saying that now is unlike the others of its word is not kept."""
    engine.vocal_tract_factor = factor
    sayings: list[Saying] = []
    today = game.today and replace(
        game.today,
        earlier=replace(game.today.earlier, factor=factor, takes=()),
        takes=replace(game.today.takes, factor=factor, takes=()),
    )
    for one in game.sayings:
        hearing, meaning = heard_by(engine, one.said.samples, Awaiting.NUMBER)
        said = replace(one.said, hearing=hearing, judged=meaning)
        took: tuple[Take, ...] = ()
        if today and one.takes and said.hearing.frames is not None:
            came = today.takes.with_take(one.number, said.hearing.frames, on=today.on)
            if isinstance(came, OwnWords):
                took = came.takes[-1:]
                today = replace(today, takes=came)
        sayings.append(replace(one, said=said, takes=took))
    return replace(game, sayings=tuple(sayings), today=today)
