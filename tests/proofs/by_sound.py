"""No tell, by sound: `python -m tests.proofs.by_sound` has 100 answers said to the real ear in sample time.

Two numbers whose words are as long as each other are each said in two sums, so that the very same sound is the right
answer once and a wrong one once. All is then to be the same but the verdict. A part is said in noise, so that some
hearings are unsure. Beside it: an adult who talks in the open ear without having taken the turn.
"""

import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random
from statistics import median

from saythesum.app.rehearsal.sample_time import BLOCK_SAMPLES
from saythesum.app.rehearsal.speaking_pupil import Utterance
from saythesum.core.exercises.adding import Sum
from saythesum.core.records.rows import Answer
from saythesum.dialogue.turns.stack import SayingBack
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.speaking.voice import ToolVoice
from saythesum.wording.numbers import words
from tests.by_sound import Practice, connected, recorded, said_by_the_pupil, tool_voice, with_noise
from tests.proofs.adult_talks import SENTENCES
from tests.proofs.counting import Count, counts
from tests.proofs.no_tell import alike
from tests.talk import plan_of
from tests.tools.listening.sounds import MissingError, flite, womans_number

ANSWERS = 100
COUNTS = 100
LARGEST_RECORDED = 99
NOISE_DB: tuple[float | None, ...] = (None, None, 6.0, 0.0)
"""How far the room's noise lies below the voice; None: a quiet room."""
NOTHING_AFTER_MS = 8_000
NOTHING_AFTER_SAMPLES = NOTHING_AFTER_MS * LISTENING_RATE_HZ // 1000
"""Sounds that the open ear refuses are answered by nothing."""
SAID_AGAIN = "Say it once more, please."


@dataclass(frozen=True, slots=True)
class Said:
    """One number said to one sum."""

    asked: Sum
    number: int
    snr_db: float | None
    seed: int

    @property
    def is_right(self) -> bool:
        return self.number == self.asked.total


@dataclass(frozen=True, slots=True)
class Came:
    """What came of it up to the verdict."""

    words: tuple[str, ...]
    """What the tool said next, the number said back left out."""
    delays: tuple[int, ...]
    """Samples from the end of the recording to each thing said."""
    from_end_of_speech: int | None
    """Samples to the first of them from where the ear found the end."""
    heard: int | None
    """The number said back."""


def quartets(count: int, seed: int = 1) -> Iterator[tuple[Said, Said, Said, Said]]:
    """One number right and wrong, another right and wrong, `count` answers in all."""
    dice = Random(seed)
    made = 0
    while made < count // 4:
        one = Sum(dice.randrange(12, 91), dice.randrange(2, 10))
        amount = dice.randrange(2, 10)
        other = Sum(
            dice.choice([value for value in alike(one.total) if value > 20] or [one.total + 1]) - amount, amount
        )
        if other.total in one.count_begins or one.total in other.count_begins:
            continue  # those are waited for longer
        noise = NOISE_DB[made % len(NOISE_DB)]
        made += 1
        yield (
            Said(one, one.total, noise, made),
            Said(other, one.total, noise, made),
            Said(one, other.total, noise, made),
            Said(other, other.total, noise, made),
        )


def came_of(said: Said, voice: ToolVoice) -> Came:
    """Until the verdict, or until it was asked for once more."""

    def sound(text: str) -> Samples:
        clean = recorded(text)
        return clean if said.snr_db is None else with_noise(clean, said.snr_db, said.seed)

    practice = Practice(voice, said_by_the_pupil(words(said.number)), sound)
    connected(practice, plan_of((said.asked.start,), (said.asked.amount,)))
    practice.begin()
    practice.pass_until_listening()
    asked = len(practice.spoken.texts)
    heard: list[int] = []

    def is_over() -> bool:
        topic = practice.state.talk.topics[-1] if practice.state.talk.topics else None
        if isinstance(topic, SayingBack) and not heard:
            heard.append(topic.number.value)
        has_spoken = len(practice.spoken.texts) >= asked + (2 if heard else 1)
        return has_spoken or practice.clock.samples > practice.pupil.end + NOTHING_AFTER_SAMPLES

    practice.pass_until(is_over)
    after = practice.spoken.texts[asked : asked + 1]
    number_said = words(heard[0]).capitalize() + "." if heard else ""
    moments = practice.spoken.at_samples[asked : asked + (2 if heard else 1)]
    ended_ms = practice.speech_ended_ms
    return Came(
        tuple("(the number)" if text == number_said else text for text in after),
        tuple(at - practice.pupil.end for at in moments),
        None if ended_ms is None or not moments else moments[0] - ended_ms * LISTENING_RATE_HZ // 1000,
        heard[0] if heard else None,
    )


@dataclass(frozen=True, slots=True)
class NoTell:
    answers: int
    said_back_rightly: int
    told_apart: int
    """Sounds whose words, or moments by more than one block, were others when it was right."""
    once_more_right: int
    once_more_wrong: int
    not_answered: int
    """Refused as no answer, which the open ear says nothing to."""
    pairs_apart: tuple[int, ...]
    """Samples between the delays of the right and the wrong number of a sum, where both were said back."""


def measured(count: int, voice: ToolVoice) -> NoTell:
    rightly = told_apart = silent = 0
    again: Counter[bool] = Counter()
    pairs: list[int] = []
    for quartet in quartets(count):
        came = [came_of(said, voice) for said in quartet]
        told_apart += sum(_are_told_apart(came[at], came[at + 1]) for at in (0, 2))
        pairs += [apart for at in (0, 1) if (apart := _delays_apart(came[at], came[at + 2])) is not None]
        for said, one in zip(quartet, came, strict=True):
            again[said.is_right] += SAID_AGAIN in one.words
            rightly += one.heard == said.number
            silent += not one.words
    return NoTell(count // 4 * 4, rightly, told_apart, again[True], again[False], silent, tuple(pairs))


def _are_told_apart(one: Came, other: Came) -> bool:
    """The same sound, once right and once wrong."""
    later = [abs(first - second) for first, second in zip(one.delays, other.delays, strict=False)]
    return (one.words, one.heard) != (other.words, other.heard) or max(later, default=0) > BLOCK_SAMPLES


def _delays_apart(one: Came, other: Came) -> int | None:
    """Samples, from the end of speech to the number said back, for two numbers said to one sum."""
    if one.heard is None or other.heard is None or one.from_end_of_speech is None or other.from_end_of_speech is None:
        return None
    return abs(one.from_end_of_speech - other.from_end_of_speech)


@dataclass(frozen=True, slots=True)
class Counted:
    counts: int
    spoken_into: int
    kept_whole: int
    """Kept as the last number of the count, and nothing else."""


def counted_aloud(count: int, voice: ToolVoice, seed: int = 1) -> Counted:
    """A recorded woman counts on from the start, or from the number after it, with gaps of 0.5 to 3 s."""
    chosen = [each for each in counts() if each.first >= 20 and each.last <= LARGEST_RECORDED]
    came = [_counted(each, voice) for each in Random(seed).sample(chosen, count)]
    return Counted(count, sum(into for into, _ in came), sum(whole for _, whole in came))


def _counted(said: Count, voice: ToolVoice) -> tuple[bool, bool]:
    """Whether it was spoken into, and whether its last number, and nothing else, was kept."""
    numbers = range(said.first, said.last + 1)
    reply = tuple(Utterance(str(number), said.gap_ms) for number in numbers)
    practice = Practice(voice, iter([reply]), lambda text: womans_number(int(text)))
    connected(practice, plan_of((said.asked.start,), (said.asked.amount,)))
    practice.begin()
    practice.pass_until_listening()
    before = list(practice.spoken.texts)
    practice.pass_until(lambda: practice.clock.samples > practice.pupil.end)
    is_spoken_into = practice.spoken.texts != before
    practice.pass_ms(NOTHING_AFTER_MS)
    kept = [row.given for row in practice.state.progress.live if isinstance(row, Answer)]
    return is_spoken_into, kept == [said.last]


@dataclass(frozen=True, slots=True)
class AdultTalks:
    sentences: int
    answered: int
    """The tool said something."""
    kept: int
    """An answer was kept, as nobody objected."""


def adult_talks(voice: ToolVoice, speaker: str) -> AdultTalks:
    """57 add 8 was asked; somebody beside the pupil says each sentence."""
    answered = kept = 0
    for sentence in SENTENCES:
        practice = Practice(voice, iter([(Utterance(sentence, 700),)]), lambda text: flite(speaker, text))
        connected(practice, plan_of((57,), (8,)))
        practice.begin()
        practice.pass_until_listening()
        before = len(practice.spoken.texts)
        practice.pass_ms(practice.pupil.end // 16 - practice.clock.since_start_ms() + 8_000)
        answered += len(practice.spoken.texts) > before
        kept += any(isinstance(row, Answer) for row in practice.state.progress.live)
    return AdultTalks(len(SENTENCES), answered, kept)


def main() -> int:
    with tempfile.TemporaryDirectory() as cache, tool_voice(Path(cache)) as voice:
        told = measured(ANSWERS, voice)
        print(f"1. No tell, by sound: {told.answers} answers, {told.said_back_rightly} said back as they were said;")
        print(f"   {told.told_apart} of {told.answers // 2} sounds told apart by words, or by more than a block;")
        print(f"   once more: {told.once_more_right} right, {told.once_more_wrong} wrong;")
        print(f"   refused as no answer, for the noise: {told.not_answered}.")
        print("   The right and the wrong number of a sum, said back after delays (from the end of speech) apart by:")
        apart = told.pairs_apart
        print(f"   median {median(apart):g}, most {max(apart)} samples, {len(apart)} pairs.")
        try:
            count = counted_aloud(COUNTS, voice)
            print(f"2. Counting aloud, by sound: {count.counts} counts, {count.kept_whole} kept as their last number")
            print(f"   and as nothing else, {count.spoken_into} spoken into.")
            for speaker in ("slt", "rms"):
                adult = adult_talks(voice, speaker)
                print(f"3. An adult ({speaker}) without the turn, open ear: {adult.sentences} sentences, ", end="")
                print(f"{adult.answered} answered, {adult.kept} kept as answers where nobody objects.")
        except MissingError as missing:
            print(missing)
            return 3
    return 0


if __name__ == "__main__":
    sys.exit(main())
