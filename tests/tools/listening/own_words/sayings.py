"""Each clip of a speaker as it is heard with a vocal-tract factor, kept in a folder: nothing is heard twice.

A speaker, condition and factor has two files there: lines of JSON with what was heard, with up to two views and with
the second opinion; and the encoder's frames, a signed byte for each feature.
"""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from saythesum.core.meanings import Awaiting
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.vocal_tract.factor import FACTORS
from saythesum.ports import Frames, Samples
from tests.tools.listening.hearings import Answer, answer_read, answered, written
from tests.tools.listening.sounds import Clip

_STEPS = 127


@dataclass(frozen=True, slots=True, eq=False)
class Saying:
    """One clip."""

    plain: Answer
    """Without a second opinion, with a second view near the line."""
    second: Answer
    """With the second opinion."""
    frames: "Frames | None"
    """None where nothing was found to be said."""

    @property
    def said(self) -> int | None:
        return self.plain.said


def heard(engine: NeuralRecogniser, set_name: str, clip: Clip, condition: str, spoken: Samples) -> Saying:
    """`spoken`: the part of the sound in which somebody speaks."""
    opinion = engine.second_opinion
    engine.second_opinion = None
    plain = answered(engine, set_name, clip, condition, spoken)
    engine.second_opinion = opinion
    return Saying(plain, answered(engine, set_name, clip, condition, spoken), plain.hearing.frames)


def scores(engine: NeuralRecogniser, spoken: Samples) -> list[float]:
    """The log-probability of the likeliest meaning at each of FACTORS."""
    return engine.log_probabilities(spoken, Awaiting.NUMBER, FACTORS)


def keep(folder: Path, name: str, sayings: Iterable[Saying]) -> None:
    sayings = list(sayings)
    folder.mkdir(parents=True, exist_ok=True)
    frames = [np.zeros((0, 1), np.float32) if saying.frames is None else saying.frames for saying in sayings]
    highest = [np.abs(each).max(axis=1, initial=1e-9) for each in frames]
    np.savez_compressed(
        folder / f"{name}.npz",
        lengths=np.array([len(each) for each in frames]),
        highest=np.concatenate(highest).astype(np.float32),
        frames=np.concatenate([_in_steps(*pair) for pair in zip(frames, highest, strict=True) if len(pair[0])]),
    )
    lines = (f"[{written(saying.plain)}, {written(saying.second)}]\n" for saying in sayings)
    (folder / f"{name}.jsonl").write_text("".join(lines), encoding="utf-8")


def _in_steps(frames: Frames, highest: NDArray[np.float32]) -> NDArray[np.int8]:
    steps: NDArray[np.int8] = np.rint(frames / highest[:, None] * _STEPS).astype(np.int8)
    return steps


def kept(folder: Path, name: str) -> list[Saying] | None:
    """None where they have not been heard yet."""
    path = folder / f"{name}.jsonl"
    if not path.exists():
        return None
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    with np.load(folder / f"{name}.npz") as held:
        ends = np.cumsum(held["lengths"])[:-1]
        whole = held["frames"].astype(np.float32) / _STEPS * held["highest"][:, None]
        each: Sequence[Frames] = np.split(whole, ends)
    return [
        Saying(answer_read(plain), answer_read(second), frames if len(frames) else None)
        for (plain, second), frames in zip(lines, each, strict=True)
    ]
