"""Fits the certainty to what was right and wrong, and prints how far it can be believed.

    python -m tests.listening --condition clean --keep FILE
    python -m tests.listening.calibrate FILE

Only what the gate lets through as a number, taken or not sure, has a certainty. Each voice, with its share of what is
no number, is judged by a fit that has not heard it; what is printed last is the fit of all, to be put into
saythesum/hearing/certainty.py by hand.
"""

import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from saythesum.dialogue.heard import Number
from saythesum.hearing.certainty import margins_within
from tests.listening.hearings import Answer, read

Numbers = NDArray[np.float64]
Row = tuple[float, float, bool]


def main() -> None:
    voices = _voices(read(Path(sys.argv[1])))
    chances, rights = [], []
    for name in voices:
        fit = _fitted([row for other, rows in voices.items() if other != name for row in rows])
        inputs, outcomes = _split(voices[name])
        chances.append(_chance(fit, inputs))
        rights.append(outcomes)
    _print_reliability(np.concatenate(chances), np.concatenate(rights))
    constant, below, above = _fitted([row for rows in voices.values() for row in rows])
    print(f"constant {constant:.2f}, a nat below the free writing {below:.2f}, a nat above the next {above:.2f}")


def _voices(answers: list[Answer]) -> dict[str, list[Row]]:
    numbers = [answer for answer in answers if answer.said is not None]
    others = [answer for answer in answers if answer.said is None]
    names = sorted({answer.voice for answer in numbers})
    shares = {name: others[place :: len(names)] for place, name in enumerate(names)}
    spoken = {name: [answer for answer in numbers if answer.voice == name] + shares[name] for name in names}
    return {name: [row for row in map(_row, spoken[name]) if row] for name in names}


def _row(answer: Answer) -> Row | None:
    """The two margins, and whether the number that came through was the one said. None where none did."""
    ranked = answer.hearing.ranked
    if not ranked or not isinstance(answer.judged.heard, Number):
        return None
    below = answer.hearing.free_log_probability - ranked[0].log_probability
    above = ranked[0].log_probability - ranked[1].log_probability if ranked[1:] else np.inf
    if ranked[0].meaning is None:
        above = -above  # a rival lies that much above the number
    return *margins_within(below, above), answer.judged.heard.value == answer.said


def _split(rows: list[Row]) -> tuple[Numbers, Numbers]:
    table = np.array(rows, dtype=np.float64)
    return np.column_stack([np.ones(len(table)), table[:, :2]]), table[:, 2]


def _fitted(rows: list[Row]) -> Numbers:
    """Logistic regression by Newton's steps."""
    inputs, outcomes = _split(rows)
    weights = np.zeros(inputs.shape[1])
    for _ in range(25):
        chance = _chance(weights, inputs)
        bend = (inputs * (chance * (1 - chance))[:, None]).T @ inputs + 1e-6 * np.eye(len(weights))
        weights += np.linalg.solve(bend, inputs.T @ (outcomes - chance))
    return weights


def _chance(weights: Numbers, inputs: Numbers) -> Numbers:
    chance: Numbers = 1 / (1 + np.exp(-inputs @ weights))
    return chance


def _print_reliability(chances: Numbers, outcomes: Numbers) -> None:
    print("certainty      of  said  right")
    error = 0.0
    for low in np.arange(0.0, 1.0, 0.1):
        inside = (chances >= low) & (chances < low + 0.1 + 1e-9 * (low > 0.85))
        if inside.any():
            said, right = chances[inside].mean(), outcomes[inside].mean()
            error += abs(said - right) * inside.mean()
            print(f"{low:.1f} to {low + 0.1:.1f}  {inside.sum():>4}  {said:.2f}  {right:.2f}")
    print(f"on average {error:.3f} off, over {len(chances)} numbers heard")


if __name__ == "__main__":
    main()
