"""A small model of our own on the encoder's frames, asked by the gate whether something else was said.

Trained by `tests.tools.second_opinion` on made voices and recordings of people; run in plain numpy. A conformer whose
frames are read by a few weighted means, each of which looks elsewhere.

Source: A. Gulati et al., Conformer: Convolution-augmented Transformer for Speech Recognition, Interspeech 2020.
"""

import hashlib
import math
import zipfile
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from saythesum.core.meanings import Choice, Command, Given, Meaning, Number
from saythesum.errors import ListeningError
from saythesum.ports import Frames, SecondOpinion
from saythesum.settings.shipped_files import models_folder

Floats = NDArray[np.float32]

FILE_NAME = "second-opinion.npz"
LONGER, YES, NO, OTHER = "longer", "yes", "no", "other"
"""Names of meanings in the file, beside numbers and commands: any number without a place of its own, the two choices,
and something else."""
_HEADS = 4
_EVEN = 1e-5
"""Keeps a division by a spread of nothing finite. PyTorch's own, with which the weights were learnt."""


class SecondOpinionModel:
    """The weights of one file. Any number of threads may ask it."""

    def __init__(self, path: Path, encoder: Path) -> None:
        """`encoder`: the file whose frames it is asked about.

        Raises ListeningError when the weights are missing or damaged, or were trained on another encoder.
        """
        held = _read(path)
        if str(held["encoder_sha256"]) != hashlib.sha256(encoder.read_bytes()).hexdigest():
            raise ListeningError(f"{path} belongs to another speech model than {encoder}; {_RIGHT}")
        try:
            self._mean, self._spread = held["mean"], held["spread"]
            self._names = [str(name) for name in held["meaning_names"]]
            self._weights: dict[str, Floats] = {
                name: weight.astype(np.float32) for name, weight in held.items() if weight.dtype == np.float16
            }
            self._blocks = sum(name.endswith(".gate.bias") for name in self._weights)
            self.of(np.zeros((1, len(self._mean)), np.float32))
        except (KeyError, ValueError, IndexError) as failure:
            raise _damaged(path) from failure

    def of(self, frames: Frames) -> SecondOpinion:
        scores = self.scores(frames)
        known: dict[Meaning | None, float] = {}
        longer = -math.inf
        for name, score in zip(self._names, scores.tolist(), strict=True):
            if name == LONGER:
                longer = score
            else:
                known[_meaning(name)] = score
        return SecondOpinion(known, longer)

    def scores(self, frames: Frames) -> Floats:
        """The log-probability of each meaning, in the file's order."""
        hidden = _silu(self._norm("start_norm", self._linear("start", (frames - self._mean) / self._spread)))
        hidden = hidden + _silu(self._near(hidden))
        for block in range(self._blocks):
            hidden = self._block(f"block{block}", hidden)
        hidden = self._norm("end_norm", hidden)
        looks = _shares(self._linear("questions", hidden).T)
        answer = self._linear("meanings", (looks @ hidden).reshape(-1))
        scores: Floats = answer - np.log(np.exp(answer - answer.max()).sum()) - answer.max()
        return scores

    def _block(self, name: str, hidden: Floats) -> Floats:
        """A convolution over time, a look at all other frames, a layer on each frame by itself."""
        count, width = hidden.shape
        gated = self._linear(f"{name}.gate", self._norm(f"{name}.gate_norm", hidden))
        deep = self._norm(f"{name}.depth_norm", self._deep(f"{name}.depth", gated[:, :width] * _gate(gated[:, width:])))
        hidden = hidden + self._linear(f"{name}.mix", _silu(deep))
        looks = self._linear(f"{name}.look", self._norm(f"{name}.look_norm", hidden))
        query, key, value = looks.reshape(count, 3, _HEADS, width // _HEADS).transpose(1, 2, 0, 3)
        seen = _shares(query @ key.transpose(0, 2, 1) / np.sqrt(width / _HEADS).astype(np.float32)) @ value
        hidden = hidden + self._linear(f"{name}.seen", seen.transpose(1, 0, 2).reshape(count, width))
        inner = self._linear(f"{name}.inner", self._norm(f"{name}.inner_norm", hidden))
        return hidden + self._linear(f"{name}.outer", _silu(inner))

    def _near(self, hidden: Floats) -> Floats:
        """Each frame with its neighbours, all features together."""
        weight = self._weights["near.weight"]
        seen = _windows(hidden, weight.shape[2]).reshape(len(hidden), -1)
        near: Floats = seen @ weight.reshape(len(weight), -1).T + self._weights["near.bias"]
        return near

    def _deep(self, name: str, hidden: Floats) -> Floats:
        """Each feature by itself, over many frames."""
        weight = self._weights[f"{name}.weight"][:, 0]
        deep: Floats = (
            np.einsum("tdk,dk->td", _windows(hidden, weight.shape[1]), weight) + self._weights[f"{name}.bias"]
        )
        return deep

    def _linear(self, name: str, values: Floats) -> Floats:
        placed: Floats = values @ self._weights[f"{name}.weight"].T + self._weights[f"{name}.bias"]
        return placed

    def _norm(self, name: str, values: Floats) -> Floats:
        around = values - values.mean(-1, keepdims=True)
        spread = np.sqrt((around * around).mean(-1, keepdims=True) + np.float32(_EVEN))
        even: Floats = around / spread * self._weights[f"{name}.weight"] + self._weights[f"{name}.bias"]
        return even


def second_opinion(encoder: Path) -> SecondOpinionModel:
    """The one that comes with the program. Raises ListeningError where it cannot be used."""
    return SecondOpinionModel(models_folder() / FILE_NAME, encoder)


def _read(path: Path) -> dict[str, NDArray[Any]]:
    try:
        with np.load(path, allow_pickle=False) as held:
            return {name: held[name] for name in ("encoder_sha256", *held.files)}
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile) as failure:
        raise _damaged(path) from failure


_RIGHT = "right would be to install saythesum again."


def _damaged(path: Path) -> ListeningError:
    return ListeningError(f"{path} is missing or damaged; {_RIGHT}")


@cache
def _meaning(name: str) -> Meaning | None:
    if name.isdigit():
        return Number(int(name))
    if name in (YES, NO):
        return Choice(name == YES)
    return None if name == OTHER else Given(Command(name))


def _windows(values: Floats, kernel: int) -> Floats:
    """[frames, features, kernel]: each frame with those around it; beyond the ends there is nothing."""
    reach = kernel // 2
    return np.lib.stride_tricks.sliding_window_view(np.pad(values, ((reach, reach), (0, 0))), kernel, axis=0)


def _shares(values: Floats) -> Floats:
    """Of one altogether, along the last axis."""
    raised = np.exp(values - values.max(-1, keepdims=True))
    shares: Floats = raised / raised.sum(-1, keepdims=True)
    return shares


def _gate(values: Floats) -> Floats:
    gate: Floats = np.float32(1) / (np.float32(1) + np.exp(-values))
    return gate


def _silu(values: Floats) -> Floats:
    return values * _gate(values)
