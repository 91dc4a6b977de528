"""The engine that comes with the program: the embedded model, decoded by us against the closed set."""

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import cache

import numpy as np

from saythesum.core.meanings import NUMBER_KINDS, Awaiting
from saythesum.errors import ListeningError
from saythesum.hearing.embedded.beam_search import WITHIN_NATS, read_last, searched, searched_between
from saythesum.hearing.embedded.moonshine import ENCODER_NAME, Utterance, embedded_model, model_folder
from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.second_opinion import SecondOpinionModel, second_opinion
from saythesum.hearing.embedded.tokenizer import END_ID
from saythesum.hearing.embedded.trie import MeaningOrRival, Node, grown
from saythesum.hearing.vocal_tract.warp import lowered
from saythesum.ports import LISTENING_RATE_HZ, Frames, Hearing, Hypothesis, Samples
from saythesum.wording.understand.phrases import spellings

LONGEST_S = 30
"""Whatever comes after is not listened to: no answer is as long, and memory stays bounded."""
QUIET_END_MS = 300
"""Near-silence put after the sound. Measured: a hard end costs 6 % of what would be taken."""

NEAR_SILENCE = 1e-4
"""As an amplitude: far below any microphone's own noise, and not the digital nothing no model was taught with."""
_QUIET_END = (np.random.default_rng(0).standard_normal(QUIET_END_MS * LISTENING_RATE_HZ // 1000) * NEAR_SILENCE).astype(
    np.float32
)

_PIECES_A_SECOND, _PIECES_AT_LEAST, _PIECES_AT_MOST = 6.5, 12, 64
"""How much is written freely. Source of the first: the advice of the model's makers, beyond which it only
repeats itself (from memory)."""

CUT_OFF = "[unfinished]"
"""Ends a text that was not written to its end. No sentence that means anything has it: what seems to ask
"is it fifty-two" may have gone on "or fifty-three"."""
_CLOSING_MARKS = {".", "?", "!", ","}

_CLEAR_TO_FREE_NATS, _CLEAR_TO_NEXT_NATS, _CLEARLY_UNLIKELY_NATS, _HOPELESS_NATS = 2.0, 3.0, 4.0, 9.0
"""A first view this close to the free writing, this far above the second meaning and no less likely by itself needs
no second view, nor does one far below the free writing. Measured on 960 numbers of eight voices: a quarter of them
take a second view, and of what is taken 12 are wrong instead of 17, with as many taken."""
_SECOND_VIEW_PITCH = 0.9


class NeuralRecogniser:
    """Keeps what it is fed and decodes all of it when asked. One at a time for each kind of answer."""

    name = "neural"

    def __init__(self, vocal_tract_factor: float = 1.0, own_words: OwnWords | None = None) -> None:
        """Raises ListeningError when the model is missing. The first one made loads it, about 0.2 s."""
        self.vocal_tract_factor = vocal_tract_factor
        """What is heard is lowered by it. May be changed at any time, by any thread; holds from the next decode on."""
        self._model = embedded_model()
        self.second_opinion = shipped_second_opinion()
        """Weights of ours that are asked beside; None: plain listening, with a second view near the line. May be
        exchanged while nothing is open."""
        self.own_words = Comparison(own_words) if own_words else None
        """Of one pupil, where they are used. May be exchanged at any time, by any thread; holds from the next decode
        on. While listening is lowered otherwise than they were, it is as if there were none."""
        self.awaiting = Awaiting.NUMBER
        """What it was opened for last."""
        self._tree: Node | None = None
        self._blocks: list[Samples] = []
        self.fed_samples = 0
        """Kept since it was opened; LONGEST_S at most."""
        self._heard: Hearing | None = None

    def open(self, awaiting: Awaiting) -> None:
        self._tree, self.awaiting = tree(awaiting), awaiting
        self._blocks, self.fed_samples, self._heard = [], 0, None

    def feed(self, block: Samples) -> None:
        kept = block[: LONGEST_S * LISTENING_RATE_HZ - self.fed_samples]
        if len(kept):
            self._blocks.append(kept.copy())
            self.fed_samples += len(kept)
            self._heard = None

    def so_far(self) -> Hearing:
        if self._tree is None:
            raise RuntimeError("open comes first")
        if self._heard is None:
            factor = self.vocal_tract_factor
            self._heard = self._as_own(self._hearing(lowered(self.fed(), factor), self._tree), factor)
        return self._heard

    def close(self) -> Hearing:
        heard = self.so_far()
        self._tree, self._blocks, self.fed_samples, self._heard = None, [], 0, None
        return heard

    def fed(self) -> Samples:
        """All of it, as it came, cleaned of a microphone's faults."""
        return _cleaned(self._blocks)

    def log_probabilities(self, samples: Samples, awaiting: Awaiting, factors: Iterable[float]) -> list[float]:
        """Of the likeliest meaning, whichever it is, at each factor. Has nothing to do with what was fed."""
        utterances = (self._encoded(lowered(samples, factor)) for factor in factors)
        found = (searched_between(utterance, tree(awaiting), ()) for utterance in utterances)
        return [max(meanings.values(), default=-math.inf) for meanings in found]

    def frames(self, samples: Samples) -> Frames:
        """What the encoder makes of a recording, lowered by the factor: the frames of a saying that is to be kept. Has
        nothing to do with what was fed."""
        lower = lowered(_cleaned([samples]), self.vocal_tract_factor)
        frames: Frames = self._encoded(lower).frames[0]
        return frames

    def _as_own(self, hearing: Hearing, factor: float) -> Hearing:
        own = self.own_words
        if own is None or own.own.factor != factor or self.awaiting not in NUMBER_KINDS:
            return hearing
        return own.of(hearing)

    def _hearing(self, samples: Samples, root: Node) -> Hearing:
        if not samples.any():
            return Hearing((), "", 0.0, is_speech=False)
        first = self._view(samples, root)
        if self.second_opinion and first.frames is not None:
            return replace(first, second=self.second_opinion.of(first.frames))
        if _is_settled(first):
            return first
        return _both(first, self._view(_slowed(samples), root))

    def _view(self, samples: Samples, root: Node) -> Hearing:
        longest = int(_PIECES_A_SECOND * (len(samples) + len(_QUIET_END)) / LISTENING_RATE_HZ)
        longest = min(max(longest, _PIECES_AT_LEAST), _PIECES_AT_MOST)
        utterance = self._encoded(samples)
        found = searched(utterance, root, longest)
        ranked, text = _ranked(found.meanings), self._model.pieces.text(found.free.ids)
        if found.free.cut_off:
            return Hearing(ranked, f"{text} {CUT_OFF}", found.free.log_probability, frames=utterance.frames[0])
        inside = _ranked(self._inside(utterance, root, found.free.ids))
        return Hearing(ranked, text, found.free.log_probability, inside=inside, frames=utterance.frames[0])

    def _encoded(self, samples: Samples) -> Utterance:
        return self._model.encode(with_quiet_end(samples))

    def _inside(self, utterance: Utterance, root: Node, written: list[int]) -> dict[MeaningOrRival, float]:
        """The last number of a sentence, searched again between the words around it."""
        while written and self._model.pieces.text(written[-1:]) in _CLOSING_MARKS:
            written = written[:-1]
        begin, end = read_last(root, written) or (0, len(written))
        if end - begin == len(written):
            return {}
        return searched_between(utterance, root, written[:begin], written[end] if end < len(written) else END_ID)


@cache
def shipped_second_opinion() -> SecondOpinionModel | None:
    """The one copy that every recogniser shares. None where it cannot be used: `check` says why, and listening goes on
    without it."""
    try:
        return second_opinion(model_folder() / ENCODER_NAME)
    except ListeningError:
        return None


@cache
def tree(awaiting: Awaiting) -> Node:
    """The closed set of a kind of answer; kinds with the same set share one tree. Growing one takes about 0.1 s."""
    wanted = spellings(awaiting)
    for earlier in Awaiting:
        if earlier is awaiting:
            break
        if spellings(earlier) == wanted:
            return tree(earlier)
    return grown(((spelling.text, spelling.meaning) for spelling in wanted), embedded_model().pieces)


def with_quiet_end(samples: Samples) -> Samples:
    """As the encoder is given what was said."""
    return np.concatenate([samples, _QUIET_END])


def _cleaned(blocks: list[Samples]) -> Samples:
    """One stretch without a microphone's offset, within -1..1, whatever came in."""
    if not any(len(block) for block in blocks):
        return np.zeros(0, dtype=np.float32)
    samples = np.nan_to_num(np.concatenate(blocks), nan=0.0, posinf=1.0, neginf=-1.0)
    cleaned: Samples = np.clip(samples - samples.mean(), -1.0, 1.0).astype(np.float32)
    return cleaned


def _slowed(samples: Samples) -> Samples:
    """The same sound at a lower pitch, and so much longer."""
    count = int(len(samples) / _SECOND_VIEW_PITCH)
    at = np.arange(count) * _SECOND_VIEW_PITCH
    slowed: Samples = np.interp(at, np.arange(len(samples)), samples).astype(np.float32)
    return slowed


def _is_settled(hearing: Hearing) -> bool:
    """Whether a second view could change nothing."""
    if not hearing.ranked:
        return True
    best, *others = (hypothesis.log_probability for hypothesis in hearing.ranked)
    below_free = hearing.free_log_probability - best
    above_next = best - others[0] if others else WITHIN_NATS
    is_near = below_free <= _CLEAR_TO_FREE_NATS and best >= -_CLEARLY_UNLIKELY_NATS
    return (is_near and above_next >= _CLEAR_TO_NEXT_NATS) or below_free > _HOPELESS_NATS


def _both(first: Hearing, second: Hearing) -> Hearing:
    """The mean of two views, also of their free writing. The first one's text stands."""
    if not second.ranked:
        return first
    ours, theirs = (
        {hypothesis.meaning: hypothesis.log_probability for hypothesis in view.ranked} for view in (first, second)
    )
    our_floor, their_floor = _floor(ours), _floor(theirs)
    means = {
        meaning: (ours.get(meaning, our_floor) + theirs.get(meaning, their_floor)) / 2 for meaning in ours | theirs
    }
    free = (first.free_log_probability + second.free_log_probability) / 2
    return replace(first, ranked=_ranked(means), free_log_probability=free)


def _floor(scores: dict[MeaningOrRival, float]) -> float:
    """What a meaning that the search dropped can have had at most."""
    return min(*scores.values(), max(scores.values()) - WITHIN_NATS)


def _ranked(scores: dict[MeaningOrRival, float]) -> tuple[Hypothesis, ...]:
    likeliest_first = sorted(scores.items(), key=lambda entry: entry[1], reverse=True)
    return tuple(Hypothesis(meaning, score) for meaning, score in likeliest_first)
