"""Fits the certainty to what was right and wrong, finds the words that are mixed up, and prints how far to believe it.

    python -m tests.tools.listening --condition clean --keep CLEAN
    python -m tests.tools.listening --condition "child 1.2" --condition "child 1.35" \\
        --condition babble --condition white --every 6 --keep HARD
    python -m tests.tools.listening.calibrate CLEAN HARD [--write]

Each voice, with its share of what is no number, is judged by a fit that has not heard it: that gives the table. With
--write the fit of all of them goes into models/listening.toml: as the certainty of an engine with a second opinion
where the hearings have one, or else of one without.

With a second opinion it takes weights that have not heard the voice they are asked about: hear with --opinions.
"""

import argparse
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, fields
from itertools import chain
from pathlib import Path

import numpy as np
import tomlkit
from numpy.typing import NDArray

from saythesum.core.meanings import Number
from saythesum.hearing.confidence.calibration import FILE_NAME, Weights
from saythesum.hearing.confidence.certainty import Margins, best_answer, margins_within
from saythesum.hearing.confidence.confusable import words_apart, words_of
from saythesum.settings.shipped_files import models_folder
from tests.tools.listening.figures import wilson
from tests.tools.listening.hearings import Answer, read

Numbers = NDArray[np.float64]

SHARE_OF_OTHERS = 0.15
"""Of what is heard while a number is awaited, this much is taken to be no number. An assumption, not measured."""
MADE_VOICES = "flite"
NEAR_NATS = 2.0
"""A number this near to the one that was said might have been taken for it."""
SELDOM, FEWEST_VOICES = 0.06, 3
"""Words are mixed up that come this near in more than this share of all their hearings, certain to 97.5 %, and for so
many voices: what one person alone does says nothing about the engine."""


@dataclass(frozen=True, slots=True)
class Row:
    margins: Margins
    is_right: bool
    is_number: bool
    """Whether a number was said at all."""


def main() -> None:
    asked = _asked()
    answers = [answer for path in asked.files for answer in read(path) if not answer.set.startswith(MADE_VOICES)]
    voices = rows_of_voices(answers)
    judged = [(row, chance) for name in voices for row, chance in _judged_by_others(name, voices)]
    _print_reliability(judged)
    everything = list(chain.from_iterable(voices.values()))
    weights, mixed = fitted(everything), mixed_up(answers)
    print("  ".join(f"{name} {weight:.2f}" for name, weight in zip(NAMES, weights, strict=True)))
    for pair, (count, of) in mixed.items():
        print(f"{' and '.join(sorted(pair))}: {count} of {of}")
    if asked.write:
        has_second = any(answer.hearing.second for answer in answers)
        path = models_folder() / FILE_NAME
        before, fit = path.read_text(encoding="utf-8"), Weights(*weights.tolist())
        written = as_toml(before, fit, None if has_second else mixed, len(everything), len(voices))
        path.write_text(written, encoding="utf-8")


NAMES = tuple(field.name for field in fields(Weights))


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.tools.listening.calibrate")
    parser.add_argument("files", nargs="+", type=Path)
    parser.add_argument("--write", action="store_true")
    return parser.parse_args()


def rows_of_voices(answers: Iterable[Answer]) -> dict[str, list[Row]]:
    """Of each voice what it said; what is no number is dealt out among all of them."""
    rows: dict[str, list[Row]] = defaultdict(list)
    others: list[Row] = []
    for answer in answers:
        row = _row(answer)
        if row is not None:
            (rows[answer.voice] if row.is_number else others).append(row)
    for place, name in enumerate(rows):
        rows[name] += others[place :: len(rows)]
    return dict(rows)


def _row(answer: Answer) -> Row | None:
    """None where no number was among what may have been said."""
    likeliest = best_answer(answer.hearing)
    if likeliest is None or not isinstance(likeliest.meaning, Number):
        return None
    margins = margins_within(
        likeliest.below_free, likeliest.above_next, likeliest.log_probability, likeliest.doubt or 0.0
    )
    return Row(margins, likeliest.meaning.value == answer.said, answer.said is not None)


def _judged_by_others(name: str, voices: dict[str, list[Row]]) -> Iterator[tuple[Row, float]]:
    weights = fitted([row for other, rows in voices.items() if other != name for row in rows])
    return zip(voices[name], _chances(weights, _inputs(voices[name])).tolist(), strict=True)


def fitted(rows: list[Row]) -> Numbers:
    """Weights of a logistic regression, by Newton's steps: a constant, and one for each margin."""
    inputs, outcomes, counts = _inputs(rows), np.array([row.is_right for row in rows], float), _counts(rows)
    weights = np.zeros(inputs.shape[1])
    for _ in range(25):
        chance = _chances(weights, inputs)
        bend = (inputs * (counts * chance * (1 - chance))[:, None]).T @ inputs + 1e-6 * np.eye(len(weights))
        weights += np.linalg.solve(bend, inputs.T @ (counts * (outcomes - chance)))
    return weights


def _inputs(rows: list[Row]) -> Numbers:
    return np.array([(1.0, *row.margins) for row in rows])


def _counts(rows: list[Row]) -> Numbers:
    """What is no number counts as its share, however many recordings there are of it."""
    numbers = sum(row.is_number for row in rows)
    other = SHARE_OF_OTHERS / (1 - SHARE_OF_OTHERS) * numbers / max(1, len(rows) - numbers)
    return np.array([1.0 if row.is_number else other for row in rows])


def _chances(weights: Numbers, inputs: Numbers) -> Numbers:
    chances: Numbers = 1 / (1 + np.exp(-inputs @ weights))
    return chances


def _print_reliability(judged: list[tuple[Row, float]]) -> None:
    chances, counts = np.array([chance for _, chance in judged]), _counts([row for row, _ in judged])
    outcomes = np.array([row.is_right for row, _ in judged], float)
    print("certainty      of  said  right")
    error = 0.0
    for tenth in range(10):
        inside = np.minimum((chances * 10).astype(int), 9) == tenth
        if inside.any():
            said, right = (float(np.average(of[inside], weights=counts[inside])) for of in (chances, outcomes))
            error += abs(said - right) * float(counts[inside].sum() / counts.sum())
            print(f"{tenth / 10:.1f} to {tenth / 10 + 0.1:.1f}  {inside.sum():>4}  {said:.2f}  {right:.2f}")
    print(f"on average {error:.3f} off, over {len(chances)} hearings")


def mixed_up(answers: Iterable[Answer]) -> dict[frozenset[str], tuple[int, int]]:
    """Pairs of words, the oftenest mixed up first: how often, of how many hearings of either."""
    near: Counter[frozenset[str]] = Counter()
    voices: dict[frozenset[str], set[str]] = defaultdict(set)
    heard: Counter[str] = Counter()
    for answer in answers:
        if answer.said is None:
            continue
        heard.update(words_of(answer.said))
        for pair in _near(answer, answer.said):
            near[pair] += 1
            voices[pair].add(answer.voice)
    found = {pair: (count, sum(heard[word] for word in pair)) for pair, count in near.most_common()}
    return {
        pair: counts
        for pair, counts in found.items()
        if len(voices[pair]) >= FEWEST_VOICES and wilson(*counts)[0] > SELDOM
    }


def _near(answer: Answer, said: int) -> set[frozenset[str]]:
    """The pairs of words by which the numbers that came near differ from the one that was said."""
    scores = {
        entry.meaning.value: entry.log_probability
        for entry in answer.hearing.ranked
        if isinstance(entry.meaning, Number)
    }
    own = scores.pop(said, min(scores.values(), default=0.0))
    others = (value for value, score in scores.items() if score >= own - NEAR_NATS)
    return {apart for value in others if (apart := words_apart(said, value))}


def as_toml(
    before: str, weights: Weights, mixed: dict[frozenset[str], tuple[int, int]] | None, heard: int, voices: int
) -> str:
    """`before`, with the certainty measured anew: with a second opinion where `mixed` is None.

    Words are mixed up by the closed set, so they are measured without one.
    """
    document = tomlkit.parse(before)
    section = tomlkit.table()
    section.comment(f"from {heard} hearings of {voices} voices")
    for name, weight in asdict(weights).items():
        section.add(name, round(weight, 2))
    document["certainty" if mixed is not None else "certainty_with_second_opinion"] = section
    if mixed is not None:
        pairs = tomlkit.aot()
        for pair, (count, of) in mixed.items():
            pairs.append(tomlkit.item({"words": sorted(pair), "near": count, "of": of}))
        document["mixed_up"] = pairs
    return tomlkit.dumps(document)


if __name__ == "__main__":
    main()
